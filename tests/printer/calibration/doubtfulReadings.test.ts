import { describe, expect, it } from 'vitest';
import { calibrate } from '../../../src/printer/calibration/calibrate.ts';
import { mistakeIn, swapped } from '../../../src/printer/calibration/mistakeIn.ts';
import type { CalibrationReport, TypedReading } from '../../../src/printer/calibration/types.ts';
import { defaultPrinter } from '../../../src/printer/defaultPrinter.ts';
import { knownOf } from '../../../src/printer/parameters.ts';
import { PARAMETERS } from '../../../src/printer/types.ts';
import { callipers, couponReadings, drawnPrinter, draws, features, truthOf } from './bench.ts';

type Readings = Record<string, readonly (number | TypedReading)[]>;
const calibrated = (readings: Readings) =>
  calibrate(defaultPrinter, features, readings, callipers, '2025-11-20');

/** An honest coupon, its readings as typed with two decimals. */
function honest(seed: number, times = 1) {
  const from = draws(seed);
  const truth = drawnPrinter(from);
  const readings = Object.entries(couponReadings(truth, from, { times })).map(
    ([id, values]) => [id, values.map((mm) => ({ mm, text: mm.toFixed(2) }))] as const,
  );
  return { from, truth, readings: Object.fromEntries(readings) as Record<string, TypedReading[]> };
}

/** A typed text with two neighbouring digits the other way round, written without the code under test. */
function withSwap(text: string, place: number): string {
  const digits = text.replace('.', '');
  const swappedDigits = digits.slice(0, place) + digits[place + 1] + digits[place] + digits.slice(place + 2);
  const point = text.indexOf('.');
  return `${swappedDigits.slice(0, point)}.${swappedDigits.slice(point)}`;
}

const replaced = (
  readings: Record<string, TypedReading[]>,
  id: string,
  text: string,
  which = 0,
): Readings => ({
  ...readings,
  [id]: readings[id]!.map((reading, k) => (k === which ? { mm: Number(text), text } : reading)),
});

/** How far a printer's parameters are from the truth in their own uncertainties, at worst. */
const worst = ({ profile }: CalibrationReport, truth: Readonly<Record<string, number>>): number =>
  Math.max(
    ...PARAMETERS.map((parameter) => {
      const { value, u } = knownOf(profile, parameter);
      return Math.abs(value - truth[parameter]!) / u;
    }),
  );

describe('two digits swapped in one reading of any feature', () => {
  const COUPONS = 160;
  const runs = [1, 3].flatMap((times) =>
    Array.from({ length: COUPONS }, (_, seed) => {
      const { from, truth, readings } = honest(1000 * times + seed, times);
      const { id } = features[(seed * 7) % features.length]!;
      const which = from.upTo(times);
      const { text } = readings[id]![which]! as { text: string };
      const places = [...Array(text.length - 2).keys()].filter((k) => {
        const value = Number(withSwap(text, k));
        return value > 0.5 && value !== Number(text);
      });
      if (places.length === 0) return [];
      const wrong = withSwap(text, places[from.upTo(places.length)]!);
      const report = calibrated(replaced(readings, id, wrong, which));
      // What an honest single reading is off by: its print, the hand, the fit.
      const own = report.residuals.find(({ feature }) => feature === id)!;
      const u = times === 1 ? Math.min(own.u, 0.06) : 0.02;
      const change = Math.abs(Number(wrong) - Number(text)) / u;
      const place = report.doubtful.findIndex(
        ({ feature, reading }) => feature === id && (reading === which || reading === null),
      );
      return [{ times, id, text, wrong, change, place, report, truth: truthOf(truth) }];
    }).flat(),
  );

  it.each([1, 3])(
    'is named, and named first, whenever it changes the value by more than 5 u; %i readings each',
    (times) => {
      const clear = runs.filter((run) => run.times === times && run.change > 5);
      const named = clear.filter(({ place }) => place >= 0).length;
      const first = clear.filter(({ place }) => place === 0).length;
      expect(clear.length).toBeGreaterThan(100);
      // Measured over these seeds: all but one or two.
      expect(named / clear.length).toBeGreaterThanOrEqual(0.98);
      expect(first / clear.length).toBeGreaterThanOrEqual(0.98);
    },
  );

  it('is named for what it is, with what was meant', () => {
    const named = runs.filter(({ place, change }) => place >= 0 && change > 5);
    const swaps = named.filter(({ report, place }) => report.doubtful[place]!.mistake === 'digits-swapped');
    expect(swaps.length / named.length).toBeGreaterThan(0.9);
    const meant = swaps.filter(
      ({ report, place, text }) => Math.abs(report.doubtful[place]!.likely! - Number(text)) < 1e-9,
    );
    expect(meant.length / swaps.length).toBeGreaterThan(0.9);
    for (const { report, place, wrong } of swaps) {
      expect(report.doubtful[place]!.sentence).toContain(`"${wrong}" does not fit (expected `);
      expect(report.doubtful[place]!.sentence).toContain('two digits swapped?');
    }
  });

  it('does not drag the parameters: they are as near the truth as without it', () => {
    // Ten parameters within 5 uncertainties in all of 300 coupons; a dragged fit is off by tens.
    const clear = runs.filter(({ change }) => change > 10);
    for (const { report, truth } of clear) expect(worst(report, truth)).toBeLessThan(5.5);
  });
});

describe('other slips', () => {
  const { readings, truth } = honest(54);
  const clean = calibrated(readings);

  it('are not seen where there are none', () => {
    expect(clean.doubtful).toEqual([]);
  });

  it.each([
    ['decimal point one place off', 'post.y.8', (mm: number) => (mm * 10).toFixed(1), 'decimal-slipped'],
    ['decimal point two places off', 'span.x', (mm: number) => (mm / 100).toFixed(4), 'decimal-slipped'],
    ['inches for millimetres', 'bore.8', (mm: number) => (mm / 25.4).toFixed(3), 'wrong-unit'],
    ['millimetres for inches', 'slot.x.4', (mm: number) => (mm * 25.4).toFixed(2), 'wrong-unit'],
    ['a wrong feature altogether', 'post.x.8', () => '6.55', 'unexplained'],
  ] as const)('%s', (_, id, wrong, mistake) => {
    const { mm } = readings[id]![0]!;
    const report = calibrated(replaced(readings, id, wrong(mm)));
    expect(report.doubtful).toHaveLength(1);
    expect(report.doubtful[0]).toMatchObject({ feature: id, reading: 0, mistake, leftOut: true });
    if (mistake !== 'unexplained') expect(report.doubtful[0]!.likely! / mm).toBeCloseTo(1, 1);
    expect(report.residuals.find(({ feature }) => feature === id)!.leftOut).toBe(true);
    expect(worst(report, truthOf(truth))).toBeLessThan(4);
  });

  it('readings of two features exchanged are named, each with the other', () => {
    const report = calibrated({ ...readings, 'bore.6': readings['bore.5']!, 'bore.5': readings['bore.6']! });
    expect(report.doubtful.map(({ feature, mistake }) => [feature, mistake]).sort()).toEqual([
      ['bore.5', 'exchanged'],
      ['bore.6', 'exchanged'],
    ]);
    expect(report.doubtful.find(({ feature }) => feature === 'bore.5')!.sentence).toContain(
      'exchanged with bore 6?',
    );
  });

  it('one of several readings off is named alone, and the others of its feature are used', () => {
    const several = honest(51, 3);
    const report = calibrated(
      replaced(several.readings, 'post.x.5', (several.readings['post.x.5']![1]!.mm + 0.61).toFixed(2), 1),
    );
    expect(report.doubtful).toHaveLength(1);
    expect(report.doubtful[0]).toMatchObject({ feature: 'post.x.5', reading: 1, leftOut: true });
    expect(report.doubtful[0]!.sentence).toContain('the others of its 3 readings fit');
    expect(report.residuals.find(({ feature }) => feature === 'post.x.5')!.leftOut).toBe(false);
  });

  it('of two readings that disagree the one that does not fit the rest is named', () => {
    const pair = honest(52, 2);
    for (const which of [0, 1]) {
      const wrong = (pair.readings['bore.4']![which]!.mm - 0.45).toFixed(2);
      const report = calibrated(replaced(pair.readings, 'bore.4', wrong, which));
      expect(report.doubtful.map(({ feature, reading }) => [feature, reading])).toEqual([['bore.4', which]]);
    }
  });

  it('three at once do not hide one another', () => {
    const bad = { 'span.y': '66.05', 'bore.3': '3.86', 'height.20': '20.91' };
    let wrong: Readings = readings;
    for (const [id, text] of Object.entries(bad)) wrong = { ...wrong, [id]: [{ mm: Number(text), text }] };
    const report = calibrated(wrong);
    expect(report.doubtful.map(({ feature }) => feature).sort()).toEqual(Object.keys(bad).sort());
    expect(worst(report, truthOf(truth))).toBeLessThan(4);
  });

  it('of two features that alone tell about a parameter both are named, and the parameter keeps its prior', () => {
    const text = (readings['foot.14']![0]!.mm - 0.3).toFixed(2);
    const report = calibrated(replaced(readings, 'foot.14', text));
    expect(report.doubtful.map(({ feature }) => feature).sort()).toEqual(['foot.10', 'foot.14']);
    expect(report.doubtful[0]!.sentence).toMatch(/or it is foot 1[04] that is wrong/);
    const spread = report.parameters.find(({ parameter }) => parameter === 'firstLayerSpread')!;
    expect(spread.determined).toBe(false);
  });

  it('a reading that is odd but not beyond belief is kept, and said', () => {
    const { feature, u } = clean.residuals.find((each) => each.feature === 'slot.y.6')!;
    const text = (
      readings[feature]![0]!.mm -
      clean.residuals.find((each) => each.feature === feature)!.residual +
      5 * u
    ).toFixed(2);
    const report = calibrated(replaced(readings, feature, text));
    expect(report.doubtful).toHaveLength(1);
    expect(report.doubtful[0]).toMatchObject({ feature, leftOut: false });
    expect(report.doubtful[0]!.sentence).toMatch(/; kept$/);
  });
});

describe('swapped digits', () => {
  it.each<[TypedReading, number[]]>([
    [{ mm: 4.97, text: '4.97' }, [9.47, 4.79]],
    [{ mm: 12.34, text: '12,34' }, [21.34, 13.24, 12.43]],
    [{ mm: 4.9, text: 4.9 }, [9.4, 4.09]],
    [{ mm: 2.54, text: '0.10 in' }, [25.4, 0.254]],
    [{ mm: 3.175, text: '1/8 in' }, []],
    [{ mm: 5.55, text: '5.55' }, []],
  ])('of %o', (reading, expected) => {
    expect(swapped(reading)).toEqual(expected);
  });

  it('are the last thing thought of, after point and unit', () => {
    const far = (meant: number) => (mm: number) => (mm - meant) / 0.03;
    expect(mistakeIn({ mm: 4.97, text: '4.97' }, far(4.79))).toEqual({
      mistake: 'digits-swapped',
      likely: 4.79,
    });
    expect(mistakeIn({ mm: 49.7, text: '49.7' }, far(4.97))?.mistake).toBe('decimal-slipped');
    expect(mistakeIn({ mm: 0.196, text: '0.196' }, far(4.98))?.mistake).toBe('wrong-unit');
    expect(mistakeIn({ mm: 4.5, text: '4.50' }, far(4.79))).toBeUndefined();
  });
});
