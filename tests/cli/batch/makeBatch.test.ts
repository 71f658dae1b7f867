import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { families } from '../../../parts/index.ts';
import { makeBatch } from '../../../src/cli/batch/makeBatch.ts';
import { demoJob, workshop } from '../fettle.ts';

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());

const open = JSON.parse(readFileSync(demoJob, 'utf8'));
/** A mouth without arms needs no finite elements, which are most of the work. */
const demo = { ...open, choices: { ...open.choices, mouth: 'closed' } };
const inBench = (name: string) => join(bench.folder, name);
function writeJob(name: string): string {
  writeFileSync(inBench(`${name}.job.json`), JSON.stringify(demo));
  return inBench(`${name}.job.json`);
}
const making = (paths: readonly string[], worker: URL, hands: number) =>
  makeBatch(paths, { out: inBench('out'), ascii: false, with: [], again: false, hands, worker }, families);

it.each([1, 2])(
  'reports a thread that dies for the job it had in hand, and makes the others (%i at once)',
  async (hands) => {
    const names = ['a', 'thread-ends', 'b', 'throws-late', 'c'];
    const outcomes = await making(names.map(writeJob), new URL('faultyWorker.mjs', import.meta.url), hands);
    expect(outcomes.map(({ path, how }) => [path, how])).toEqual(
      names.map((name) => [inBench(`${name}.job.json`), name.length === 1 ? 'made' : 'broke']),
    );
    expect(outcomes[1]).toHaveProperty('why', 'worker exited with code: 9');
    expect(outcomes[3]).toHaveProperty('why', 'a wheel came off');
    for (const name of names) expect(existsSync(inBench(`out/${name}.stl`))).toBe(name.length === 1);
  },
);

it('does not wait for threads that cannot start', async () => {
  const outcomes = await making(['a', 'b', 'c'].map(writeJob), new URL('none.mjs', import.meta.url), 2);
  expect(outcomes.map(({ how }) => how)).toEqual(['broke', 'broke', 'broke']);
  expect(existsSync(inBench('out'))).toBe(false);
});
