import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { families } from '../../../parts/index.ts';
import { inspect } from '../../../src/job/inspection/inspection.ts';
import { meetingsOf } from '../../../src/job/inspection/meetings.ts';
import { placeGroups } from '../../../src/job/inspection/placeGroups.ts';
import { type PlaceFacts, printFacts } from '../../../src/job/inspection/printFacts.ts';
import { printForm } from '../../../src/job/inspection/printForm.ts';
import type { Prepared } from '../../../src/job/prepare.ts';
import { readJob } from '../../../src/job/readJob.ts';
import { openTrial } from '../../../src/job/trial/openTrial.ts';
import { loadKernel } from '../../../src/solid/kernel.ts';
import { aPrint } from './aPrint.ts';

const kernel = await loadKernel();
const jobs = ['stabiliser-clip', 'case-foot', 'socket-cover'].map((name) => {
  const file = new URL(`../../../parts/${name}/demo.job.json`, import.meta.url);
  const prepared = readJob(readFileSync(file, 'utf8'), families);
  return { name, prepared, facts: printFacts(prepared, '2026-12-03') };
});

describe.each(jobs)('a print of $name', ({ prepared, facts }) => {
  test('every size it must have is asked for, none read yet', () => {
    expect(facts.readings.map(({ id }) => id)).toEqual(meetingsOf(prepared).map(({ id }) => id));
    expect(facts.unread).toEqual(facts.readings.map(({ id }) => id));
    expect(facts.groups.flatMap(({ ids }) => ids).sort()).toEqual(facts.readings.map(({ id }) => id).sort());
    expect(facts).toMatchObject({ verdict: null, drift: null, isNew: true, next: [{ kind: 'read' }] });
  });

  test('a reading inside its limits is inside the window on the machine, one beyond them is not', () => {
    const ends = facts.readings.flatMap((place) => [
      ...limit(place, 0).map((size) => ({ place, inside: size + STEP, outside: size - STEP })),
      ...limit(place, 1).map((size) => ({ place, inside: size - STEP, outside: size + STEP })),
    ]);
    expect(ends.length).toBeGreaterThan(facts.readings.length);
    for (const { place, inside, outside } of ends) {
      expect([place.id, isOutside(prepared, place.id, inside)]).toEqual([place.id, false]);
      expect([place.id, isOutside(prepared, place.id, outside)]).toEqual([place.id, true]);
    }
  });

  test('on its drawing the jaws stand as far apart as they are expected to, at the scale that is stated', () => {
    const record = openTrial(prepared, '2026-12-03', 'ab'.repeat(32));
    const form = printForm(kernel, prepared, record, { width: 180, field: [17, 7] });
    expect(form.fields.map(({ reading }) => reading)).toEqual(facts.readings.map(({ id }) => id));
    for (const { reading, dimension } of form.fields) {
      const [[ax, ay], [bx, by]] = dimension!.touches;
      const [paper, thing] = form.views[dimension!.view]!.scale.split(':').map(Number);
      const apart = (Math.hypot(bx - ax, by - ay) * thing!) / paper!;
      // Drawn for the printer: what it grows or shrinks by is the difference between drawn and expected.
      const place = facts.readings.find(({ id }) => id === reading)!;
      const { drawn, predicted } = record.sizes[reading]!;
      expect(Math.abs(apart - place.expected)).toBeLessThan(Math.abs(drawn - predicted) + 0.15);
    }
  });
});

const STEP = 0.004;
const limit = ({ limits }: PlaceFacts, end: 0 | 1): number[] => (limits[end] === null ? [] : [limits[end]]);

/** Whether three readings of that size leave a clearance outside of the window, by the verdict itself. */
function isOutside(prepared: Prepared, id: string, size: number): boolean {
  const texts = [size, size, size].map((value) => value.toFixed(4));
  // Nothing else is read, so half a hollow is what the record expects of it.
  const { sizes } = inspect(prepared, aPrint(prepared, { [id]: texts }));
  const { decision } = sizes.find((one) => one.id === id)!;
  return decision === 'below' || decision === 'above';
}

test('places that a hand feels as one are a group, on each part by itself', () => {
  const meeting = (id: string, own: string, name: string) => ({ id, name, one: { id: own } });
  expect(
    placeGroups([
      meeting('left.stem', 'stem', 'left: stem in hole'),
      meeting('left.socket.width', 'socket.width', 'left: post in socket, width'),
      meeting('left.socket.length', 'socket.length', 'left: post in socket, length'),
      meeting('right.socket.width', 'socket.width', 'right: post in socket, width'),
      meeting('right.socket.length', 'socket.length', 'right: post in socket, length'),
    ]),
  ).toEqual([
    { id: 'left.stem', name: 'left: stem in hole', ids: ['left.stem'] },
    { id: 'left.socket', name: 'left: post in socket', ids: ['left.socket.width', 'left.socket.length'] },
    { id: 'right.socket', name: 'right: post in socket', ids: ['right.socket.width', 'right.socket.length'] },
  ]);
});
