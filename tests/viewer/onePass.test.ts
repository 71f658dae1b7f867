import { readFileSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import { expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import { Remembered } from '../../src/remembered/remembered.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { solidViewOf } from '../../viewer/spine/tasks/solidView.ts';
import { taken } from '../../viewer/spine/tasks/takeAway.ts';
import { work } from '../../viewer/spine/tasks/work.ts';

const kernel = await loadKernel();
const file = JSON.parse(readFileSync('parts/stabiliser-clip/demo.job.json', 'utf8'));

/** What steps were done, and what was spared, while `act` ran. */
function counted(known: Remembered, act: () => void): { readonly done: number; readonly spared: number } {
  const before = known.tally;
  act();
  const { made, found } = known.tally;
  return { done: made - before.made, spared: found - before.found };
}

it('draws, shows and gives away a part from one making of it, to the same bytes', () => {
  const known = new Remembered();
  try {
    const made = work(kernel, families, file, known);
    const plain = work(kernel, families, file);
    expect(isDeepStrictEqual({ ...made, took: 0 }, { ...plain, took: 0 })).toBe(true);
    const files = () => taken(kernel, families, file, 'drawing', undefined, known);
    const shown = counted(known, () => void solidViewOf(kernel, families, file, known));
    // Its own gaps and motion; the part, its layers and the print that is expected are there.
    expect(shown.done).toBe(1);
    expect(shown.spared).toBeGreaterThan(5);
    expect(counted(known, () => void files()).done).toBe(0);
    expect(isDeepStrictEqual(files(), taken(kernel, families, file, 'drawing'))).toBe(true);
    const shows = solidViewOf(kernel, families, file, known);
    expect(isDeepStrictEqual(shows, solidViewOf(kernel, families, file))).toBe(true);
  } finally {
    known.forget();
  }
});

it('makes nothing again for another title, and all of the part for another printer', () => {
  const known = new Remembered();
  try {
    work(kernel, families, file, known);
    const renamed = counted(known, () => void work(kernel, families, { ...file, title: 'another' }, known));
    expect(renamed.done).toBe(0);
    const outerGrowth = { ...file.printer.outerGrowth, value: 0.08 };
    const printer = { ...file.printer, outerGrowth };
    expect(
      counted(known, () => void work(kernel, families, { ...file, printer }, known)).done,
    ).toBeGreaterThan(10);
  } finally {
    known.forget();
  }
});
