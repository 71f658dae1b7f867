// Puts command and API into a few files each: reading the hundreds of small modules they are made of takes longer than running
// them, and whoever installs the package installs next to nothing besides. With them go the types of the API, and the
// licences of what in them is not Fettle's.
import { copyFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { type BuildOptions, build } from 'esbuild';
import { keepReached } from './keepReached.ts';
import { noticeOf, packagesOf } from './notice.ts';
import { sameFunctions } from './sameFunctions.ts';

const common = {
  bundle: true,
  splitting: true,
  format: 'esm',
  metafile: true,
  legalComments: 'none',
  logLevel: 'warning',
} as const satisfies BuildOptions;

/** Files that the geometry library looks for beside itself. */
const WASM = 'manifold.wasm';

const command = await build({
  ...common,
  entryPoints: { fettle: 'src/cli/main.ts', worker: 'src/cli/worker.ts' },
  outdir: 'dist/bin',
  platform: 'node',
  target: 'node20',
  // It finds the script of its threads beside itself.
  external: ['piscina'],
  // What CommonJS packages expect to find.
  banner: {
    js: [
      "import { createRequire as requireFrom } from 'node:module';",
      "import { fileURLToPath as pathOf } from 'node:url';",
      'const require = requireFrom(import.meta.url);',
      'const __filename = pathOf(import.meta.url);',
      "const __dirname = pathOf(new URL('.', import.meta.url));",
    ].join('\n'),
  },
});

const api = await build({
  ...common,
  ...sameFunctions,
  entryPoints: { index: 'src/api/index.ts' },
  outdir: 'dist/api',
  // What suits a browser suits Node; the other way round it does not.
  platform: 'browser',
  target: 'es2022',
  // The types of the package are made of it. The geometry library asks for a module of Node where it runs in Node.
  external: ['zod', 'node:module'],
});

const types = keepReached('dist/types', 'src/api/index.d.ts');

for (const { metafile } of [command, api]) {
  const made = new Set(Object.keys(metafile.outputs).map((path) => basename(path)));
  const folder = metafile === command.metafile ? 'dist/bin' : 'dist/api';
  copyFileSync(`node_modules/manifold-3d/${WASM}`, join(folder, WASM));
  // What an earlier build left; only now, so that a command that runs meanwhile finds its files.
  for (const name of readdirSync(folder)) if (name !== WASM && !made.has(name)) rmSync(join(folder, name));
}
// As does what was laid out otherwise before.
for (const old of ['dist/src', 'dist/parts']) rmSync(old, { recursive: true, force: true });

const inside = [command, api].flatMap(({ metafile }) => Object.keys(metafile.inputs));
writeFileSync('dist/THIRD-PARTY.txt', noticeOf('the command and the API', packagesOf(inside)));
console.log(`${types} files of types`);
