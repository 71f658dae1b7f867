// Puts the command into a few files: reading the hundreds of small modules it is made of takes longer than running it.
// The typed modules beside it, dist/src and dist/parts, are what other programs import.
import { readdirSync, rmSync } from 'node:fs';
import { basename, join } from 'node:path';
import { build } from 'esbuild';

const folder = 'dist/bin';
const { metafile } = await build({
  entryPoints: { fettle: 'dist/src/cli/main.js', worker: 'dist/src/cli/worker.js' },
  outdir: folder,
  metafile: true,
  bundle: true,
  splitting: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  // The one finds its wasm beside itself, the other the script of its threads.
  external: ['manifold-3d', 'piscina'],
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
  logLevel: 'warning',
});

// What an earlier build left; only now, so that a command that runs meanwhile finds its files.
const made = new Set(Object.keys(metafile.outputs).map((path) => basename(path)));
for (const name of readdirSync(folder)) if (!made.has(name)) rmSync(join(folder, name));
