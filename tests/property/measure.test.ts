import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Callipers,
  type Dimension,
  defaultCallipers,
  dimensionOf,
  type Jaw,
  type ReadingSpec,
  refusals,
  withMoreReadings,
} from '../../src/measure/index.ts';

const check = (property: fc.IRawProperty<unknown>) => fc.assert(property, { seed: 20250102, numRuns: 1000 });

const spec = fc.record({
  id: fc.constant('size'),
  name: fc.constant('Size'),
  jaw: fc.constantFrom<Jaw>('outside', 'inside', 'depth'),
  round: fc.boolean(),
  from: fc.constant(0.5),
  to: fc.constant(300),
}) satisfies fc.Arbitrary<ReadingSpec>;

const callipers: fc.Arbitrary<Callipers> = fc.record({
  name: fc.constant('bench pair'),
  scale: fc.constantFrom('digital', 'dial', 'vernier'),
  resolution: fc.constantFrom(0.01, 0.02, 0.05, 0.1),
  zero: fc.integer({ min: -5, max: 5 }).map((hundredths) => hundredths / 100),
  landWidth: fc.double({ min: 0, max: 1, noNaN: true }),
  landWidthUncertainty: fc.double({ min: 0, max: 0.2, noNaN: true }),
  repeatability: fc.double({ min: 0.001, max: 0.1, noNaN: true }),
});

/** Readings of one thing: a size and hundredths of scatter about it. */
const readings = fc
  .tuple(
    fc.integer({ min: 100, max: 29_000 }),
    fc.array(fc.integer({ min: -10, max: 10 }), { minLength: 1, maxLength: 12 }),
  )
  .map(([size, scatter]) => scatter.map((each) => (size + each) / 100));

const reading = (dimension: Dimension) => dimension.contributors.find(({ id }) => id === 'reading:size')!;

describe('dimensionOf', () => {
  it('has contributors whose squares add up to u squared', () => {
    check(
      fc.property(spec, readings, callipers, (of, values, pair) => {
        const { contributors, u, k, U } = dimensionOf(of, values, pair);
        const sum = contributors.reduce((total, each) => total + each.u ** 2, 0);
        expect(sum / u ** 2).toBeCloseTo(1, 12);
        expect(U).toBe(k * u);
        expect(new Set(contributors.map(({ id }) => id)).size).toBe(contributors.length);
      }),
    );
  });

  it('does not mind the order of the readings', () => {
    check(
      fc.property(spec, readings, callipers, (of, values, pair) => {
        const forwards = dimensionOf(of, values, pair);
        const backwards = dimensionOf(of, [...values].reverse(), pair);
        expect(backwards.value).toBeCloseTo(forwards.value, 11);
        expect(backwards.u).toBeCloseTo(forwards.u, 11);
        expect(backwards.dof).toBe(forwards.dof);
        const told = (dimension: Dimension) =>
          dimension.remarks.map(({ kind, value }) => `${kind} ${value.toFixed(6)}`).sort();
        expect(told(backwards)).toEqual(told(forwards));
      }),
    );
  });

  it('knows at least as much from the same readings taken several times over', () => {
    check(
      fc.property(spec, readings, callipers, fc.integer({ min: 2, max: 4 }), (of, values, pair, times) => {
        // Spread about the prior's own, so that it stays what it was and only the number grows.
        const s = pair.repeatability;
        const middle = 50 + values[0]!;
        const once = [middle - s / Math.SQRT2, middle + s / Math.SQRT2];
        const d = s * Math.sqrt((2 * times - 1) / (2 * times));
        const more = Array.from({ length: times }, () => [middle - d, middle + d]).flat();
        const few = dimensionOf(of, once, pair);
        const many = dimensionOf(of, more, pair);
        expect(reading(many).u).toBeLessThan(reading(few).u);
        expect(many.u).toBeLessThan(few.u);
      }),
    );
  });

  it('never reads a round bore smaller than the jaws stood apart, nor by more than the land', () => {
    check(
      fc.property(readings, callipers, (values, pair) => {
        const slot = { id: 'size', name: 'Size', jaw: 'inside', from: 0.5, to: 300 } as const;
        const flat = dimensionOf(slot, values, pair).value;
        const round = dimensionOf({ ...slot, round: true }, values, pair).value;
        expect(round).toBeGreaterThanOrEqual(flat - 1e-12);
        expect(round).toBeLessThanOrEqual(flat + pair.landWidth + 1e-12);
      }),
    );
  });

  it('refuses nothing inside the plausible range', () => {
    check(
      fc.property(spec, readings, (of, values) => {
        expect(refusals(of, values)).toEqual([]);
      }),
    );
  });
});

describe('withMoreReadings', () => {
  it('never raises the doubt, and adds up one by one', () => {
    check(
      fc.property(spec, readings, callipers, fc.integer({ min: 1, max: 10 }), (of, values, pair, extra) => {
        const now = dimensionOf(of, values, pair);
        const later = withMoreReadings(now, extra);
        expect(reading(later).u).toBeLessThan(reading(now).u);
        expect(later.u).toBeLessThanOrEqual(now.u);
        let stepwise = now;
        for (let each = 0; each < extra; each += 1) stepwise = withMoreReadings(stepwise, 1);
        expect(stepwise.u).toBeCloseTo(later.u, 14);
        expect(stepwise.n).toBe(later.n);
        // What the jaws themselves are good for is the floor.
        const floor = Math.hypot(...now.contributors.slice(1).map(({ u }) => u));
        expect(later.u).toBeGreaterThan(floor);
      }),
    );
  });

  it('works with the usual callipers', () => {
    const of = { id: 'size', name: 'Size', jaw: 'inside', from: 0.5, to: 300 } as const;
    expect(withMoreReadings(dimensionOf(of, [4.02], defaultCallipers), 3).n).toBe(4);
  });
});
