// Growth of the process over 2,000 makes: `npx tsx tests/bench/memory.ts [COUNT]`. wasm memory never shrinks, so a handle
// left behind in one make shows as growth; the first makes are left out, while code is compiled and pools fill.
import { readFileSync } from 'node:fs';
import { families } from '../../parts/index.ts';
import { make } from '../../src/job/make.ts';
import { readJob } from '../../src/job/readJob.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { watchMemory } from '../job/wasmMemory.ts';

const count = Number(process.argv[2] ?? 2000);
const text = readFileSync('parts/stabiliser-clip/demo.job.json', 'utf8');
const wasm = watchMemory();
const kernel = await loadKernel();
const WARM = 100;
const MIB = 2 ** 20;
const collect = (globalThis as { gc?: () => void }).gc ?? (() => {});
const resident = (): number => {
  collect();
  return process.memoryUsage().rss / MIB;
};
for (let k = 0; k < WARM; k++) make(kernel, readJob(text, families));
const [before, wasmBefore] = [resident(), wasm() / MIB];
for (let k = 0; k < count; k++) make(kernel, readJob(text, families));
const [after, wasmAfter] = [resident(), wasm() / MIB];
console.log(
  `${count} makes: resident ${before.toFixed(1)} MiB -> ${after.toFixed(1)} MiB, growth ${(after - before).toFixed(1)} MiB (goal below 20); wasm ${wasmBefore} MiB -> ${wasmAfter} MiB`,
);
