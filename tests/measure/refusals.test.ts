import { describe, expect, it } from 'vitest';
import { defaultCallipers, dimensionOf, type ReadingSpec, refusals } from '../../src/measure/index.ts';

const bar: ReadingSpec = { id: 'bar', name: 'Bar diameter', jaw: 'outside', from: 0.8, to: 4 };
const wide: ReadingSpec = { ...bar, from: 0, to: 1e6 };
const codes = (spec: ReadingSpec, ...values: number[]) => refusals(spec, values).map(({ code }) => code);

describe('refusals', () => {
  it('lets the range through, ends included', () => {
    expect(refusals(bar, [0.8, 1.6, 4])).toEqual([]);
  });

  it.each([
    [0, 'not-above-0'],
    [-1.6, 'not-above-0'],
    [Number.NaN, 'not-finite'],
    [Number.POSITIVE_INFINITY, 'not-finite'],
    [1000.01, 'too-long'],
    [1e9, 'too-long'],
  ])('refuses %d as %s in the widest range', (value, code) => {
    expect(codes(wide, value)).toEqual([code]);
  });

  it('tells of every value, with its place', () => {
    const all = refusals(bar, [1.6, 0.7, 1.61, 4.1]);
    expect(all.map(({ code, index }) => [code, index])).toEqual([
      ['below', 1],
      ['above', 3],
    ]);
    expect(all[1]).toMatchObject({ value: 4.1, allowed: '0.8 to 4 mm' });
  });

  it('names a unit slip where the other unit would be inside', () => {
    const [inches] = refusals(bar, [0.0625]);
    expect(inches!.slip).toEqual({ kind: 'inches-as-millimetres', likely: 1.5875 });
    expect(inches!.sentence).toBe(
      'Bar diameter is below the plausible range; times 25.4 it would be 1.5875 mm, ' +
        'so inches were likely taken for millimetres (given 0.0625 mm; allowed 0.8 to 4 mm)',
    );
    const [millimetres] = refusals(bar, [40.64]);
    expect(millimetres!.slip?.kind).toBe('millimetres-as-inches');
    expect(millimetres!.slip?.likely).toBeCloseTo(1.6, 12);
    expect(refusals(bar, [5])[0]!.slip).toBeUndefined();
  });

  it('believes no slip that disagrees with the other readings', () => {
    const bore: ReadingSpec = { id: 'bore', name: 'Bore', jaw: 'inside', from: 2, to: 20 };
    // In the other unit 80.3 would be 3.16, which the range allows and the other readings deny.
    expect(refusals(bore, [80.3])[0]!.slip!.kind).toBe('millimetres-as-inches');
    const [wide] = refusals(bore, [8.02, 80.3, 8.05]);
    expect(wide).toMatchObject({ index: 1, slip: { kind: 'point-too-far-right' } });
    expect(wide!.reason).toBe(
      'is above the plausible range; divided by 10 it would be 8.03 mm, as the other readings say, ' +
        'so the point likely stands a place too far right',
    );
    const [narrow] = refusals(bore, [0.803], undefined, [8.04]);
    expect(narrow!.slip!.kind).toBe('point-too-far-left');
    expect(narrow!.slip!.likely).toBeCloseTo(8.03, 12);
    expect(refusals(bore, [80.3], undefined, [5])[0]!.slip).toBeUndefined();
    expect(refusals(bore, [203.9], undefined, [8.04])[0]!.slip!.kind).toBe('millimetres-as-inches');
    // Others that cannot be used themselves say nothing.
    expect(refusals(bore, [80.3], undefined, [80.4])[0]!.slip!.kind).toBe('millimetres-as-inches');
  });

  it('looks at the reading without the zero where callipers are given', () => {
    const callipers = { ...defaultCallipers, zero: 0.05 };
    expect(refusals(bar, [4.04], callipers)).toEqual([]);
    expect(refusals(bar, [0.82], callipers).map(({ code }) => code)).toEqual(['below']);
    const [nothing] = refusals(wide, [0.05], callipers);
    expect(nothing!.reason).toBe('is not above 0 once the zero is taken off');
  });

  it('lets entered values be 0 or below where the range does, and only one of them', () => {
    const offset: ReadingSpec = { id: 'offset', name: 'Offset', jaw: 'entered', from: -1, to: 1 };
    expect(refusals(offset, [0])).toEqual([]);
    expect(refusals(offset, [-1])).toEqual([]);
    expect(codes(offset, 0.5, 0.5)).toEqual(['several']);
    expect(codes({ ...offset, quantity: 'count' }, 0.5)).toEqual(['not-whole']);
    expect(codes({ ...offset, to: 1e6 }, 2000.1)).toEqual(['too-long']);
    expect(refusals({ ...offset, quantity: 'angle', to: 30 }, [31])[0]).toMatchObject({
      code: 'above',
      allowed: '-1 to 30 deg',
    });
  });

  it('leaves nothing that dimensionOf would throw at', () => {
    const values = [-1, 0, 0.01, 0.05, 0.06, 0.8, 1, 25.4, 999, 1000, 1001, 2001, Number.NaN, 1e9];
    const specs: ReadingSpec[] = [
      wide,
      bar,
      { ...wide, jaw: 'inside', round: true },
      { ...wide, jaw: 'depth' },
    ];
    let through = 0;
    for (const zero of [-0.05, 0, 0.05]) {
      const callipers = { ...defaultCallipers, zero };
      for (const spec of specs) {
        for (const value of values) {
          if (refusals(spec, [value], callipers).length > 0) continue;
          through += 1;
          expect(Number.isFinite(dimensionOf(spec, [value], callipers).U)).toBe(true);
        }
      }
    }
    expect(through).toBeGreaterThan(40);
  });
});
