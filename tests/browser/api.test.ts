import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { fettle, workshop } from '../cli/fettle.ts';
import { launched } from './launched.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const text = readFileSync(`${root}/parts/spacer/demo.job.json`, 'utf8');
/** Where a page of somebody else's would be; nothing is asked for outside of this test. */
const ORIGIN = 'http://bench.test/';

let browser: Browser;
let bundle: string;
beforeAll(async () => {
  const here = inject('browser');
  if ('missing' in here) throw new Error(here.missing);
  browser = await launched(here.program, false);
  // As somebody's page packs it: the built API, by its name as a package has it.
  const { outputFiles } = await build({
    stdin: {
      contents: `import { locateWasm, make, openJob } from './dist/api/index.js';
        locateWasm('/wasm/manifold.wasm');
        globalThis.made = async (text) => {
          const { result, files } = await make(await openJob(text), { kinds: ['stl', '3mf'], name: 'spacer' });
          return { chance: result.chance, files: files.map(({ name, bytes }) => [name, [...bytes]]) };
        };`,
      resolveDir: root,
    },
    ...{ bundle: true, write: false, format: 'esm', platform: 'browser', target: 'es2022' },
    external: ['node:module'],
  });
  bundle = outputFiles[0]!.text;
});
afterAll(() => browser?.close());

it('runs in a page of somebody else’s, under a strict policy, with the bytes of the command', async () => {
  const page = await browser.newPage();
  const errors: string[] = [];
  page.on('pageerror', ({ message }) => errors.push(message));
  const answers: Readonly<Record<string, { readonly contentType: string; readonly body: string | Buffer }>> =
    {
      '/': {
        contentType: 'text/html',
        body: '<!doctype html><script type="module" src="/page.js"></script>',
      },
      '/page.js': { contentType: 'text/javascript', body: bundle },
      '/wasm/manifold.wasm': {
        contentType: 'application/wasm',
        body: readFileSync(`${root}/dist/api/manifold.wasm`),
      },
    };
  await page.route('**/*', (route) => {
    const found = answers[new URL(route.request().url()).pathname];
    if (!found) return route.fulfill({ status: 404, body: '' });
    const policy = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'";
    return route.fulfill({ ...found, headers: { 'content-security-policy': policy } });
  });
  await page.goto(ORIGIN);
  await page.waitForFunction(() => 'made' in globalThis);
  const made = await page.evaluate(
    (job) =>
      (
        globalThis as unknown as {
          made: (text: string) => Promise<{ chance: number; files: [string, number[]][] }>;
        }
      ).made(job),
    text,
  );
  const bench = workshop();
  try {
    await fettle(['make', `${root}/parts/spacer/demo.job.json`, '--out', bench.folder, '--3mf', '--json']);
    const hash = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
    for (const [name, bytes] of made.files)
      expect(hash(Uint8Array.from(bytes)), name).toBe(
        hash(readFileSync(`${bench.folder}/${name.replace('spacer', 'demo')}`)),
      );
    expect(made.files).toHaveLength(2);
    expect(made.chance).toBeGreaterThan(0.9);
    expect(errors).toEqual([]);
  } finally {
    bench.clear();
  }
});
