import { describe, expect, it } from 'vitest';
import {
  type Callipers,
  type Contributor,
  defaultCallipers,
  dimensionOf,
  type ReadingSpec,
  withMoreReadings,
} from '../../src/measure/index.ts';

const bar: ReadingSpec = { id: 'bar', name: 'Bar diameter', jaw: 'outside', from: 0.8, to: 4 };
const socket: ReadingSpec = { id: 'socket', name: 'Socket width', jaw: 'inside', from: 2, to: 8 };
const bore: ReadingSpec = { id: 'bore', name: 'Bore', jaw: 'inside', round: true, from: 1, to: 20 };
const knifeEdges: Callipers = { ...defaultCallipers, landWidth: 0, landWidthUncertainty: 0 };

const uOf = (contributors: readonly Contributor[], id: string) =>
  contributors.find((contributor) => contributor.id === id)?.u;

describe('dimensionOf', () => {
  it('has the budget of one outside reading', () => {
    const dimension = dimensionOf(bar, [1.6], defaultCallipers);
    expect(dimension.contributors).toEqual([
      {
        id: 'reading:bar',
        label: 'Bar diameter',
        u: 0.02,
        distribution: 'student',
        dof: 10,
        deviation: 0.02,
      },
      {
        id: 'resolution:bar',
        label: 'step of the scale, Bar diameter',
        u: 0.01 / Math.sqrt(12),
        distribution: 'rectangular',
        dof: Number.POSITIVE_INFINITY,
      },
      {
        id: 'calliper:scale',
        label: 'callipers, scale',
        u: 0.02 / Math.sqrt(3),
        distribution: 'rectangular',
        dof: Number.POSITIVE_INFINITY,
      },
    ]);
    expect(dimension).toMatchObject({ id: 'bar', name: 'Bar diameter', value: 1.6, unit: 'mm', n: 1 });
    // By hand: u^2 = 0.02^2 + 0.01^2/12 + 0.02^2/3; nu = 10 (u/0.02)^4 = 18.33.
    expect(dimension.u).toBeCloseTo(Math.sqrt(0.0004 + 0.0001 / 12 + 0.0004 / 3), 15);
    expect(dimension.dof).toBe(18);
    // JCGM 100:2008 has no row 18; from memory of Student's table: 2.101.
    expect(dimension.k).toBeCloseTo(2.101, 3);
    expect(dimension.U).toBe(dimension.k * dimension.u);
  });

  it('takes the zero off, whichever way it is off', () => {
    expect(dimensionOf(bar, [1.6, 1.62], { ...defaultCallipers, zero: 0.03 }).value).toBeCloseTo(1.58, 12);
    expect(dimensionOf(bar, [1.6, 1.62], { ...defaultCallipers, zero: -0.03 }).value).toBeCloseTo(1.64, 12);
  });

  it('corrects each reading of a round bore for the lands, after the zero', () => {
    const callipers = { ...defaultCallipers, zero: 0.1, landWidth: 0.5 };
    // 2.95804 is the chord that lands of 0.5 mm read in a bore of 3 mm.
    expect(dimensionOf(bore, [3.05804], callipers).value).toBeCloseTo(3, 6);
    // Readings of two sizes: the mean of the corrected, not the correction of the mean.
    const apart = dimensionOf(bore, [1.1, 3.1], callipers).value;
    expect(apart).toBeCloseTo((Math.hypot(1, 0.5) + Math.hypot(3, 0.5)) / 2, 12);
  });

  it('leaves slots and knife edges alone', () => {
    expect(dimensionOf(socket, [4.02], { ...defaultCallipers, landWidth: 0.5 }).value).toBe(4.02);
    expect(dimensionOf(bore, [4.02], knifeEdges).value).toBe(4.02);
    expect(dimensionOf({ ...bore, jaw: 'outside' }, [4.02], defaultCallipers).value).toBe(4.02);
  });

  it('carries every doubt over by the sensitivity of the land correction, m / D', () => {
    const callipers = { ...defaultCallipers, landWidth: 1.5, landWidthUncertainty: 0.1 };
    // 2, 1.5, 2.5: a right triangle, so m/D = 0.8 and w/D = 0.6.
    const { contributors, value } = dimensionOf(bore, [2], callipers);
    expect(value).toBeCloseTo(2.5, 12);
    expect(uOf(contributors, 'reading:bore')).toBeCloseTo(0.8 * 0.02, 12);
    expect(uOf(contributors, 'resolution:bore')).toBeCloseTo((0.8 * 0.01) / Math.sqrt(12), 12);
    expect(uOf(contributors, 'calliper:scale')).toBeCloseTo((0.8 * 0.02) / Math.sqrt(3), 12);
    // 0.04 mm for inside jaws in all: what they add to the scale makes up the rest of the variance.
    const added = Math.sqrt(0.04 ** 2 - 0.02 ** 2);
    expect(uOf(contributors, 'calliper:inside')).toBeCloseTo((0.8 * added) / Math.sqrt(3), 12);
    expect(uOf(contributors, 'calliper:landWidth')).toBeCloseTo(0.6 * 0.1, 12);
    // The numerical derivative says the same.
    const step = 1e-6;
    const moved = dimensionOf(bore, [2 + step], callipers).value;
    expect((moved - value) / step).toBeCloseTo(0.8, 5);
  });

  it('knows inside and depth less well than outside, and long less well than short', () => {
    const u = (spec: ReadingSpec, value: number) => dimensionOf(spec, [value], knifeEdges).u;
    const long: ReadingSpec = { id: 'long', name: 'Length', jaw: 'outside', from: 1, to: 500 };
    expect(u({ ...long, jaw: 'inside' }, 4)).toBeGreaterThan(u(long, 4));
    expect(u({ ...long, jaw: 'depth' }, 4)).toBe(u({ ...long, jaw: 'inside' }, 4));
    expect(u(long, 180)).toBeGreaterThan(u(long, 4));
  });

  it('shares scale and jaw between dimensions, and nothing else', () => {
    const ids = (spec: ReadingSpec, value: number) =>
      dimensionOf(spec, [value], knifeEdges).contributors.map(({ id }) => id);
    const first = ids(socket, 4);
    const second = ids({ ...socket, id: 'slot' }, 3);
    expect(first.filter((id) => second.includes(id))).toEqual(['calliper:scale', 'calliper:inside']);
    expect(first.filter((id) => ids(bar, 1.6).includes(id))).toEqual(['calliper:scale']);
  });

  it('takes the permissible error and the prior a person gives', () => {
    const own = {
      ...defaultCallipers,
      permissibleError: 0.06,
      repeatability: 0.01,
      priorDegreesOfFreedom: 4,
    };
    const { contributors } = dimensionOf(socket, [4, 4.02], own);
    expect(uOf(contributors, 'calliper:scale')).toBeCloseTo(0.06 / Math.sqrt(3), 12);
    expect(uOf(contributors, 'calliper:inside')).toBeUndefined();
    // s of two readings 0.02 apart is 0.02 / sqrt(2): s^2 = (4 * 0.01^2 + 1 * 0.0002) / 5.
    expect(uOf(contributors, 'reading:socket')).toBeCloseTo(Math.sqrt((0.0004 + 0.0002) / 5 / 2), 12);
    expect(contributors[0]!.dof).toBe(5);
  });

  it('takes an entered value as it is, with the doubt that was stated', () => {
    const drawn: ReadingSpec = { id: 'travel', name: 'Travel', jaw: 'entered', from: 2, to: 6, u: 0.05 };
    const dimension = dimensionOf(drawn, [4], { ...defaultCallipers, zero: 0.5 });
    expect(dimension).toMatchObject({ value: 4, u: 0.05, dof: Number.POSITIVE_INFINITY, n: 1, remarks: [] });
    expect(dimension.k).toBeCloseTo(1.95996, 5);
    expect(dimension.contributors.map(({ id }) => id)).toEqual(['entered:travel']);
    const { u: _, ...unsaid } = drawn;
    expect(dimensionOf(unsaid, [4], defaultCallipers).u).toBeCloseTo(0.01 / Math.sqrt(12), 15);
  });

  it('gives entered angles, temperatures and counts their unit, and counts no doubt', () => {
    const of = (quantity: 'angle' | 'temperature' | 'count') =>
      dimensionOf(
        { id: 'x', name: 'X', jaw: 'entered', quantity, from: -100, to: 100 },
        [2],
        defaultCallipers,
      );
    expect(of('angle').unit).toBe('deg');
    expect(of('temperature').unit).toBe('degC');
    expect(of('count')).toMatchObject({ unit: '1', u: 0, U: 0, dof: Number.POSITIVE_INFINITY });
  });

  it('throws for what no refusal should have let through', () => {
    expect(() => dimensionOf(bar, [], defaultCallipers)).toThrow(
      'Bar diameter requires at least 1 reading (given 0)',
    );
    expect(() => dimensionOf(bar, [1.6, Number.NaN], defaultCallipers)).toThrow('finite');
    expect(() => dimensionOf(bar, [0], defaultCallipers)).toThrow('above 0 mm (given 0 mm)');
    expect(() => dimensionOf(bar, [0.02], { ...defaultCallipers, zero: 0.03 })).toThrow('above 0 mm');
    expect(() => dimensionOf({ ...bar, jaw: 'entered' }, [1, 2], defaultCallipers)).toThrow(
      '1 entered value',
    );
    expect(() => dimensionOf({ ...bar, quantity: 'angle' }, [1], defaultCallipers)).toThrow('read no angle');
    expect(() => dimensionOf(bar, [1.6], { ...defaultCallipers, priorDegreesOfFreedom: 0 })).toThrow(
      'at least 2 readings',
    );
  });
});

describe('withMoreReadings', () => {
  it('is what the readings would give if the spread stayed as it is', () => {
    // n readings that have the pooled spread by themselves leave it unchanged, whatever n is.
    const d = 0.02 / Math.sqrt(2);
    const two = dimensionOf(socket, [4 - d, 4 + d], knifeEdges);
    const e = 0.02 * Math.sqrt(3 / 4);
    const four = dimensionOf(socket, [4 - e, 4 - e, 4 + e, 4 + e], knifeEdges);
    const forecast = withMoreReadings(two, 2);
    expect(forecast.n).toBe(4);
    expect(forecast.value).toBe(two.value);
    expect(forecast.u).toBeCloseTo(four.u, 12);
    // What the chance rests on is smaller too.
    expect(forecast.contributors[0]!.deviation).toBeCloseTo(four.contributors[0]!.deviation!, 12);
    expect(forecast.dof).toBe(four.dof);
    expect(forecast.U).toBeCloseTo(four.U, 12);
    expect(forecast.contributors.slice(1)).toEqual(two.contributors.slice(1));
  });

  it('changes nothing for none, nor for an entered value', () => {
    const dimension = dimensionOf(bar, [1.6, 1.61], defaultCallipers);
    expect(withMoreReadings(dimension, 0)).toEqual(dimension);
    const entered = dimensionOf({ ...bar, jaw: 'entered' }, [1.6], defaultCallipers);
    expect(withMoreReadings(entered, 5)).toBe(entered);
    expect(() => withMoreReadings(dimension, -1)).toThrow('whole number of more readings (given -1)');
    expect(() => withMoreReadings(dimension, 1.5)).toThrow(RangeError);
  });
});
