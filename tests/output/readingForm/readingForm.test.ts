import { expect, test } from 'vitest';
import { families } from '../../../parts/index.ts';
import { sheetInput } from '../../../src/job/sheet.ts';
import { type FormField, type ReadingForm, readingForm } from '../../../src/output/readingForm/index.ts';
import { loadKernel } from '../../../src/solid/kernel.ts';

const kernel = await loadKernel();
const FIELD = [17, 7] as const;
const cases = families.flatMap((family) =>
  [90, 130, 200].map((width) => {
    const input = sheetInput(kernel, family);
    return { family, input, width, form: readingForm(input, { width, field: FIELD }) };
  }),
);
const drawn = ({ fields }: ReadingForm) =>
  fields.flatMap(({ dimension, ...field }) => (dimension ? [{ ...field, dimension }] : []));

/** End points of the lines of path data, "M1 2L3 4..." */
const lines = (d: string): [number, number][][] =>
  d
    .split('M')
    .filter((part) => part !== '')
    .map((part) =>
      part
        .replace('Z', '')
        .split('L')
        .map((point) => point.split(' ').map(Number) as [number, number]),
    );
const scaleOf = (name: string): number => {
  const [paper, thing] = name.split(':').map(Number);
  return paper! / thing!;
};

test.each(cases)('$family.id, $width mm wide: every reading has its field, in order', ({ family, form }) => {
  expect(form.fields.map(({ number }) => number)).toEqual(form.fields.map((_, k) => k + 1));
  expect(form.fields.length).toBeGreaterThan(2);
  for (const { reading, dimension } of form.fields) {
    expect(family.readings[reading]).toBeDefined();
    // Only what is no length has no place.
    if (!dimension) expect(family.readings[reading]!.quantity).toBe('mass');
  }
});

const overlap = (a: readonly number[], b: readonly number[], clear: number): boolean =>
  a[0]! - clear < b[0]! + b[2]! &&
  b[0]! - clear < a[0]! + a[2]! &&
  a[1]! - clear < b[1]! + b[3]! &&
  b[1]! - clear < a[1]! + a[3]!;

test.each(cases)('$family.id, $width mm wide: no field stands on another, all on the sheet', ({ form }) => {
  const fields = drawn(form);
  for (const [
    k,
    {
      dimension: { field },
    },
  ] of fields.entries()) {
    expect(field[0]).toBeGreaterThanOrEqual(0);
    expect(field[1]).toBeGreaterThanOrEqual(0);
    expect(field[0] + field[2]).toBeLessThanOrEqual(form.size[0] + 1e-9);
    expect(field[1] + field[3]).toBeLessThanOrEqual(form.size[1] + 1e-9);
    for (const { dimension } of fields.slice(k + 1)) expect(overlap(field, dimension.field, 0)).toBe(false);
  }
});

test.each(cases)('$family.id, $width mm wide: no line of another runs through a field', ({ form }) => {
  const fields = drawn(form);
  let looked = 0;
  for (const one of fields)
    for (const other of fields) {
      if (one === other || one.dimension.view !== other.dimension.view) continue;
      for (const line of lines(other.dimension.lines)) {
        looked++;
        expect(runsThrough(line, one.dimension.field)).toBe(false);
      }
    }
  expect(looked).toBeGreaterThan(5);
});

/** Samples a hundred points of a line: a route of its own, not the placing's clipping. */
function runsThrough(
  [a, b]: [number, number][],
  [left, top, width, height]: NonNullable<FormField['dimension']>['field'],
) {
  return Array.from({ length: 101 }, (_, k) => k / 100).some((t) => {
    const [x, y] = [a![0] + t * (b![0] - a![0]), a![1] + t * (b![1] - a![1])];
    return x > left && x < left + width && y > top && y < top + height;
  });
}

test('a length on the sheet is the reading at the stated scale', () => {
  const { form, family } = cases.find(
    ({ family: { id }, width }) => id === 'stabiliser-clip' && width === 200,
  )!;
  let compared = 0;
  for (const { reading, dimension } of drawn(form)) {
    if (!['barDiameter', 'socketWidth', 'socketLength', 'socketDepth', 'farSide'].includes(reading)) continue;
    const [[ax, ay], [bx, by]] = dimension.touches;
    const length = Math.hypot(bx - ax, by - ay) / scaleOf(form.views[dimension.view]!.scale);
    expect(length).toBeCloseTo(family.readings[reading]!.typical, 3);
    compared++;
  }
  expect(compared).toBe(5);
});

// The callouts of the family through the sight of their view against where the jaws touch on the drawing.
test('a point of the part is found on the sheet', () => {
  let compared = 0;
  for (const { form, input } of cases) {
    const callouts = input.family.callouts(input.values);
    for (const { reading, dimension } of drawn(form)) {
      const { from, right, down } = form.views[dimension.view]!.sight;
      for (const [k, p] of callouts[reading]!.entries()) {
        const dot = (way: readonly number[]) => way.reduce((sum, c, i) => sum + c * p[i]!, 0);
        expect(from[0] + dot(right)).toBeCloseTo(dimension.touches[k]![0], 6);
        expect(from[1] + dot(down)).toBeCloseTo(dimension.touches[k]![1], 6);
        compared++;
      }
    }
  }
  expect(compared).toBeGreaterThan(50);
});

test('comes out the same each time', () => {
  const { input, form } = cases[0]!;
  expect(readingForm(input, { width: 90, field: FIELD })).toEqual(form);
});
