import { beforeAll, describe, expect, it } from 'vitest';
import { changedLengths, type LengthWish } from '../../src/job/changedLengths.ts';
import { openedDonor, taskOfDonor } from '../../src/job/donorTask.ts';
import { Refused } from '../../src/job/problem.ts';
import { type RefitSheet, refitSheet } from '../../src/job/refitSheet.ts';
import type { Job } from '../../src/job/schema.ts';
import { loadKernel, type ManifoldToplevel } from '../../src/solid/kernel.ts';
import { block, cylinder } from '../../src/solid/primitives.ts';
import { difference, type Shape, union } from '../../src/solid/shape.ts';
import { draftMap, movedLines } from '../../viewer/donor/layAlong.ts';
import { bracket, NECK, stlOf } from '../cli/donorModel.ts';

type Told = NonNullable<Job['donor']>;

const bore = (x: number) =>
  cylinder({ axis: 'z', diameter: 3.2, from: [x, 0, -1], length: 12, sense: 'bore' });
/** Alike on both sides of x = 0: ends with a bore, arms 16 mm long of section 10 x 4, a block in the middle. */
const clamp: Shape = difference(
  union(
    block([-30, -8, 0], [-22, 8, 8]),
    block([22, -8, 0], [30, 8, 8]),
    block([-23, -5, 0], [23, 5, 4]),
    block([-6, -7, 0], [6, 7, 10]),
  ),
  bore(-26),
  bore(26),
);

let kernel: ManifoldToplevel;
let models: Readonly<Record<'bracket' | 'clamp', Uint8Array>>;
beforeAll(async () => {
  kernel = await loadKernel();
  models = { bracket: await stlOf(bracket), clamp: await stlOf(clamp) };
});

const told = (changes: Told['changes'] = [], lopsided = false): Told => ({
  ...{ file: 'part.stl', changes, lopsided },
});
const taskOf = (name: keyof typeof models, donor: Told, unit: Job['unit'] = 'mm') =>
  taskOfDonor(donor, openedDonor(models[name], 'part.stl', 'mm'), '', { unit });
const sheetOf = (name: keyof typeof models, donor: Told, axis: number): RefitSheet =>
  refitSheet(kernel, taskOf(name, donor), { axis, roll: 0, lengths: {} });
const granted = (
  name: keyof typeof models,
  donor: Told,
  wish: LengthWish,
  unit: Job['unit'] = 'mm',
): Told => ({
  ...donor,
  ...changedLengths(kernel, taskOf(name, donor, unit), donor, unit, wish),
  changes: [...changedLengths(kernel, taskOf(name, donor, unit), donor, unit, wish).changes],
});
const stretchAt = ({ spans }: RefitSheet, level: number) =>
  spans.findIndex(({ from, to }) => from < level && level < to);
const [alongX, alongZ] = [[1, 0, 0] as [number, number, number], [0, 0, 1] as [number, number, number]];

describe('the sheet of a model', () => {
  it('shows each stretch with its section, and says what is round in it', () => {
    const sheet = sheetOf('bracket', told(), 2);
    const neck = sheet.spans[stretchAt(sheet, 12)]!;
    expect(neck.from).toBeCloseTo(6, 5);
    expect(neck.to).toBeCloseTo(18, 5);
    expect(neck.area).toBeCloseTo(NECK, 3);
    expect(neck).toMatchObject({ change: null, longer: [], distorts: [] });
    expect(sheet.spans[stretchAt(sheet, 3)]).toMatchObject({ longer: ['bore1'], distorts: [] });
    // Across the bore nothing can change without a flat in it.
    const across = sheetOf('bracket', told(), 0);
    const amid = across.spans.filter(({ from, to }) => from < 6 && to > 6);
    expect(amid.every(({ distorts }) => distorts.includes('bore1'))).toBe(true);
  });

  it('draws the part as long as it is, and moves what lies behind a change', () => {
    const sheet = sheetOf('bracket', told([{ axis: 'z', by: -3.4 }]), 2);
    expect(sheet.axes[2]).toMatchObject({ name: 'z' });
    expect(sheet.axes[2]!.was).toBeCloseTo(30, 5);
    expect(sheet.axes[2]!.now).toBeCloseTo(26.6, 4);
    const levels = sheet.picture.lines.flatMap(([p, q]) => [p[0], q[0]]);
    expect(Math.max(...levels) - Math.min(...levels)).toBeCloseTo(26.6, 4);
    const post = sheet.picture.marks.find(({ id }) => id === 'post1')!;
    expect(post.at[0]).toBeCloseTo(27 - 3.4, 3);
    const neck = sheet.spans[stretchAt(sheet, 10)]!;
    expect(neck.length).toBeCloseTo(8.6, 4);
    expect(neck.was).toBeCloseTo(12, 4);
    expect(neck.change).toBe(0);
  });

  it('pairs stretches of a symmetric part, and says which spoil what is round', () => {
    const sheet = sheetOf('clamp', told(), 0);
    expect(sheet.mirror).toBeCloseTo(0, 4);
    const [left, right] = [stretchAt(sheet, -14), stretchAt(sheet, 14)];
    expect(sheet.spans[left]!.partner).toBe(right);
    expect(sheet.spans[right]!.partner).toBe(left);
    const sliver = sheet.spans.filter(({ from, to }) => from < -26 && to > -26);
    expect(sliver.every(({ distorts }) => distorts.includes('bore1') || distorts.includes('bore2'))).toBe(
      true,
    );
  });

  it('previews a change as the part then is drawn: every line where it comes to lie', () => {
    const before = sheetOf('bracket', told(), 2);
    const at = stretchAt(before, 12);
    const moved = movedLines(before.picture.lines, draftMap(before, { span: at, by: 2.5 }));
    const after = sheetOf('bracket', told([{ axis: 'z', by: 2.5 }]), 2).picture.lines;
    const sorted = (lines: typeof moved) =>
      lines
        .map((line) =>
          [...line]
            .map(([x, y]) => [x.toFixed(3), y.toFixed(3)].join(' '))
            .sort()
            .join(' to '),
        )
        .sort();
    expect(moved.length).toBeGreaterThan(10);
    expect(sorted(moved)).toEqual(sorted(after));
  });
});

describe('a wish about a length', () => {
  it('is taken up where the handle is, not where it would be best', () => {
    const sheet = sheetOf('bracket', told(), 2);
    const { from, to } = sheet.spans[stretchAt(sheet, 21)]!;
    const donor = granted('bracket', told(), { kind: 'add', axis: alongZ, by: -1, stretch: { from, to } });
    const after = sheetOf('bracket', donor, 2);
    expect(after.spans[stretchAt(after, 20)]!.length).toBeCloseTo(5, 4);
    expect(after.spans[stretchAt(after, 12)]!.length).toBeCloseTo(12, 4);
  });

  it('changes what is there when the handle is drawn again, and takes it out when drawn back', () => {
    const first = granted('bracket', told(), { kind: 'add', axis: alongZ, by: -1 });
    const second = granted('bracket', first, { kind: 'set', change: 0, by: 4, here: true });
    expect(second.changes).toHaveLength(1);
    expect(sheetOf('bracket', second, 2).axes[2]!.now).toBeCloseTo(34, 4);
    expect(granted('bracket', second, { kind: 'set', change: 0, by: 0 }).changes).toEqual([]);
  });

  it('leaves later changes where they were', () => {
    const sheet = sheetOf('bracket', told(), 2);
    const { from, to } = sheet.spans[stretchAt(sheet, 3)]!;
    const one = granted('bracket', told(), { kind: 'add', axis: alongZ, by: -2 });
    const two = granted('bracket', one, { kind: 'add', axis: alongZ, by: 1, stretch: { from, to } });
    const three = granted('bracket', two, { kind: 'set', change: 0, by: 9 });
    const { spans } = sheetOf('bracket', three, 2);
    expect(spans.map(({ length }) => Number(length.toFixed(3)))).toEqual([7, 21, 6, 6]);
  });

  it('is refused where the stretch is too short, with what it has', () => {
    const sheet = sheetOf('bracket', told(), 2);
    const { from, to } = sheet.spans[stretchAt(sheet, 12)]!;
    const wish: LengthWish = { kind: 'add', axis: alongZ, by: -12, stretch: { from, to } };
    expect(() => granted('bracket', told(), wish)).toThrow(Refused);
    try {
      granted('bracket', told(), wish);
    } catch (error) {
      // 12 mm long, and 0.2 mm stay.
      expect((error as Refused).problems).toEqual([
        expect.objectContaining({
          code: 'stretch_too_short',
          allowed: 'at most 11.80 mm out of this stretch',
        }),
      ]);
    }
  });

  it('keeps a symmetric part so, until it may lose it; the change stays where it was', () => {
    const sheet = sheetOf('clamp', told(), 0);
    const { from, to } = sheet.spans[stretchAt(sheet, -4.5)] ?? sheet.spans[stretchAt(sheet, -24)]!;
    const both = granted('clamp', told(), { kind: 'add', axis: alongX, by: 2, stretch: { from, to } });
    const kept = sheetOf('clamp', both, 0);
    const changed = kept.spans.filter(({ length, was }) => length - was > 0.5);
    expect(changed.reduce((sum, { length, was }) => sum + length - was, 0)).toBeCloseTo(2, 4);
    expect(kept.mirror).not.toBeNull();
    const one = granted('clamp', both, { kind: 'lopsided', lopsided: true });
    expect(one.lopsided).toBe(true);
    const lost = sheetOf('clamp', one, 0);
    expect(lost.mirror).toBeNull();
    const where = lost.spans.filter(({ length, was }) => length - was > 0.5);
    expect(where).toHaveLength(1);
    expect(where[0]!.length - where[0]!.was).toBeCloseTo(2, 4);
    expect(Math.abs(where[0]!.from - from)).toBeLessThan(2.1);
  });

  it('says millimetres where a bare number would be inches', () => {
    const donor = granted('bracket', told(), { kind: 'add', axis: alongZ, by: -3.4 }, 'in');
    expect(donor.changes).toEqual([{ axis: 'z', by: '-3.4 mm' }]);
    const sheet = refitSheet(kernel, taskOf('bracket', donor, 'in'), { axis: 2, roll: 0, lengths: {} });
    expect(sheet.axes[2]!.now).toBeCloseTo(26.6, 4);
  });
});
