// Growth of the process over 2,000 makes: `npx tsx tests/bench/memory.ts [COUNT] [remembered]`. wasm memory never shrinks, so a handle
// left behind in one make shows as growth; the first makes are left out, while code is compiled and pools fill.
// With `remembered` every make has another reading and starts from what is remembered of those before, 16 MiB of it.
import { readFileSync } from 'node:fs';
import { families } from '../../parts/index.ts';
import { make } from '../../src/job/make.ts';
import { readJob } from '../../src/job/readJob.ts';
import { Remembered } from '../../src/remembered/remembered.ts';
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
const known = process.argv[3] === 'remembered' ? new Remembered(16 * MIB) : undefined;
function makeOne(k: number): void {
  const other = (4 + (k % 300) / 1000).toFixed(3);
  make(kernel, readJob(known ? text.replace('"4.03"', `"${other}"`) : text, families), known);
}
for (let k = 0; k < WARM; k++) makeOne(k);
const [before, wasmBefore] = [resident(), wasm() / MIB];
for (let k = 0; k < count; k++) makeOne(WARM + k);
const [after, wasmAfter] = [resident(), wasm() / MIB];
console.log(
  `${count} makes: resident ${before.toFixed(1)} MiB -> ${after.toFixed(1)} MiB, growth ${(after - before).toFixed(1)} MiB (goal below 20); wasm ${wasmBefore} MiB -> ${wasmAfter} MiB`,
);
