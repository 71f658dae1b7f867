import type { BuildOptions } from 'esbuild';
import * as functions from '../src/arithmetic/functions.ts';

const names = Object.keys(functions);
/** A name that nothing in a bundle has. */
const own = (name: string): string => `sameEverywhere_${name}`;

/** Puts the functions of `src/arithmetic` for those of `Math` into the text of a bundle, in the code of others as well. So a program
 *  that calls it gets the bytes of the command, and keeps its own `Math`. */
export const sameFunctions: Pick<BuildOptions, 'define' | 'inject' | 'plugins'> = {
  define: Object.fromEntries(names.map((name) => [`Math.${name}`, own(name)])),
  inject: ['same-functions'],
  plugins: [
    {
      name: 'same functions',
      setup({ onResolve, onLoad }) {
        onResolve({ filter: /^same-functions$/ }, ({ path }) => ({ path, namespace: 'same' }));
        onLoad({ filter: /.*/, namespace: 'same' }, () => ({
          contents: `export { ${names.map((name) => `${name} as ${own(name)}`).join(', ')} } from './src/arithmetic/functions.ts';`,
          resolveDir: process.cwd(),
        }));
      },
    },
  ],
};
