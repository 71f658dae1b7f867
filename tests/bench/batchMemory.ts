// Memory of the threads over many random jobs: `npm run build && NODE_OPTIONS=--expose-gc npx tsx
// tests/bench/batchMemory.ts [COUNT] [HANDS]`. Each job is the demo of a family with every reading off by up to 7 %; a memory that grew from job to job would show.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { takeHands } from '../../src/cli/batch/hands.ts';
import { materialNames } from '../../src/standards/materials.ts';

const SEED = 20261126;
const MIB = 2 ** 20;
const [count, hands] = [Number(process.argv[2] ?? 500), Number(process.argv[3] ?? 2)];
const demos = ['stabiliser-clip', 'case-foot', 'socket-cover'].map((name) =>
  JSON.parse(readFileSync(`parts/${name}/demo.job.json`, 'utf8')),
);
const jobs = fc.sample(
  fc
    .record({
      demo: fc.constantFrom(...demos),
      material: fc.constantFrom(...materialNames),
      off: fc.array(fc.double({ min: 0.93, max: 1.07, noNaN: true }), { minLength: 30, maxLength: 30 }),
    })
    .map(({ demo, material, off }) => ({
      ...demo,
      material,
      readings: Object.fromEntries(
        Object.entries(demo.readings as Record<string, string[]>).map(([id, texts], k) => [
          id,
          texts.map((text) =>
            text.replace(/^[\d.,]+/, (n) => (Number(n.replace(',', '.')) * off[k]!).toFixed(2)),
          ),
        ]),
      ),
    })),
  { numRuns: count, seed: SEED },
);

const folder = mkdtempSync(join(tmpdir(), 'fettle-'));
const pool = takeHands(new URL('watchedWorker.mjs', import.meta.url), hands);
const told = { made: 0, refused: 0, wasm: 0 };
const held: { readonly heap: number; readonly resident: number }[] = [];
const queue = jobs.entries();
const lane = async () => {
  for (const [k, job] of queue) {
    const path = join(folder, `${k}.job.json`);
    writeFileSync(path, JSON.stringify(job));
    const answer = await pool.make({ path, base: 'part', out: folder, ascii: false, with: [] });
    told['files' in answer ? 'made' : 'refused']++;
    const { wasm, heap } = answer as unknown as { readonly wasm: number; readonly heap: number };
    told.wasm = Math.max(told.wasm, wasm);
    (globalThis as { gc?: () => void }).gc?.();
    held.push({ heap: heap / MIB, resident: process.memoryUsage().rss / MIB });
  }
};
await Promise.all(Array.from({ length: hands }, lane));
await pool.letGo();
rmSync(folder, { recursive: true });

const tenth = Math.ceil(count / 10);
const most = (what: 'heap' | 'resident', part: typeof held) =>
  Math.max(...part.map((one) => one[what])).toFixed(0);
const [early, late] = [held.slice(tenth, 2 * tenth), held.slice(-tenth)];
console.log(
  `${told.made} jobs made, ${told.refused} refused, on ${hands} threads: wasm at most ${told.wasm / MIB} MiB a thread`,
);
for (const what of ['heap', 'resident'] as const)
  console.log(
    `${what}: second tenth of the jobs ${most(what, early)} MiB, last tenth ${most(what, late)} MiB`,
  );
