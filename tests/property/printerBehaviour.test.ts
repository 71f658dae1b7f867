import fc from 'fast-check';
import { expect, test } from 'vitest';
import { drawnSize, predictedSize } from '../../src/printer/behaviour.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { type Measurand, rectangleHydraulic, stadiumHydraulic } from '../../src/printer/measurand.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const known = (min: number, max: number) => number(min, max).map((value) => ({ value, u: 0.01 }));

const profile: fc.Arbitrary<PrinterProfile> = fc
  .record({
    scale: fc.record({ x: known(0.97, 1.03), y: known(0.97, 1.03), z: known(0.97, 1.03) }),
    outerGrowth: known(-0.1, 0.2),
    boreShrink: known(-0.1, 0.25),
    boreCurvature: known(0, 0.5),
    layer: number(0.05, 0.4),
    firstLayer: number(0.1, 0.5),
  })
  .map((some) => ({ ...defaultPrinter, ...some }));

const level: fc.Arbitrary<Measurand> = fc.record({
  kind: fc.constantFrom('bore', 'slot', 'post', 'rib', 'step' as const),
  // Up to 44 degrees out of the plane of the bed.
  direction: fc
    .tuple(number(0, 2 * Math.PI), number(-0.768, 0.768))
    .map(
      ([turn, tilt]) =>
        [Math.cos(turn) * Math.cos(tilt), Math.sin(turn) * Math.cos(tilt), Math.sin(tilt)] as [
          number,
          number,
          number,
        ],
    ),
  hydraulic: fc.constantFrom(
    (d: number) => d,
    (d: number) => 2 * d,
    rectangleHydraulic(7),
    stadiumHydraulic(300),
  ),
});

test('what is drawn for a printed size prints as that size', () => {
  fc.assert(
    fc.property(profile, level, number(0.6, 200), (printer, measurand, printed) => {
      const drawn = drawnSize(printed, measurand, printer);
      expect(Math.abs(predictedSize(drawn, measurand, printer).value - printed)).toBeLessThan(1e-9);
    }),
    { seed: 20241120, numRuns: 2000 },
  );
});

test('a larger drawing never prints smaller', () => {
  fc.assert(
    fc.property(profile, level, number(0.5, 200), number(0, 5), (printer, measurand, drawn, more) => {
      const small = predictedSize(drawn, measurand, printer).value;
      expect(predictedSize(drawn + more, measurand, printer).value).toBeGreaterThanOrEqual(small - 1e-12);
    }),
    { seed: 20241121, numRuns: 1000 },
  );
});

test('heights come within half a layer of what was asked, and hold against rounding', () => {
  fc.assert(
    fc.property(profile, number(0.6, 150), number(0, 20), (printer, printed, lowerFace) => {
      const measurand: Measurand = { kind: 'post', direction: [0, 0, 1], lowerFace };
      const drawn = drawnSize(printed, measurand, printer);
      const { value } = predictedSize(drawn, measurand, printer);
      const step = Math.max(printer.layer, printer.firstLayer) * printer.scale.z.value;
      expect(Math.abs(value - printed)).toBeLessThanOrEqual(step / 2 + 1e-9);
      for (const shift of [-0.45, 0.45])
        expect(predictedSize(drawn + shift * printer.layer, measurand, printer).value).toBeCloseTo(value, 9);
    }),
    { seed: 20241122, numRuns: 1000 },
  );
});
