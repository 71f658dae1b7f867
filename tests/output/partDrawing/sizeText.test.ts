import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sizeText, toldText } from '../../../src/output/partDrawing/sizeText.ts';

const written = (nominal: number, least: number | null, most: number | null, before?: string): string[] => {
  const { figure, upper, lower } = sizeText({ nominal, least, most }, before);
  return [figure, upper, lower].filter((words) => words !== '');
};

/** What a reader takes from it. */
function limits([figure, upper, lower]: string[]): [number, number] {
  const [nominal, both] = figure!.split(' ±').map(Number);
  const deviation = (words: string): number => Number(words.replace('−', '-'));
  return both === undefined
    ? [nominal! + deviation(lower!), nominal! + deviation(upper!)]
    : [nominal! - both, nominal! + both];
}

describe('sizeText', () => {
  // ISO 129-1:2018, tolerances: deviations one above the other, a plus-minus sign where both are alike, zero without sign,
  // "max." and "min." for single limits (from memory).
  it.each([
    ['a post in a socket of 4.02 with 0 to 0.15', [3.945, 3.87, 4.02], ['3.95', '+0.07', '−0.08']],
    ['deviations alike', [3.94, 3.87, 4.01], ['3.94 ±0.07']],
    ['limits rounded inwards', [3.941, 3.866, 4.016], ['3.94 ±0.07']],
    ['a limit at the size itself', [5, 5, 5.2], ['5.00', '+0.20', '0']],
    ['a size below its limits', [3.8, 3.87, 4.02], ['3.80', '+0.22', '+0.07']],
    ['a size above them', [4.1, 3.87, 4.02], ['4.10', '−0.08', '−0.23']],
    ['no upper limit', [5, 4.861, null], ['4.87 min.']],
    ['no lower limit', [5, null, 5.128], ['5.12 max.']],
    ['no limit', [5.004, null, null], ['5.00']],
    ['limits nearer than a hundredth', [2.5004, 2.496, 2.504], ['2.500 ±0.004']],
  ] as const)('%s', (_, [nominal, least, most], expected) => {
    expect(written(nominal, least, most)).toEqual(expected);
  });

  it('puts signs before the figure, and brackets around what is only told', () => {
    expect(written(6.31, 6.21, 6.41, '2× ⌀')).toEqual(['2× ⌀6.31 ±0.10']);
    expect(toldText(43.106, '⌀').figure).toBe('(⌀43.1)');
  });

  it('never allows what does not fit, and takes no more than a hundredth at each end', () => {
    const mm = fc.integer({ min: 100, max: 90_000 }).map((n) => n / 1000);
    const reach = fc.integer({ min: 25, max: 900 }).map((n) => n / 1000);
    fc.assert(
      fc.property(mm, reach, reach, (least, below, above) => {
        const most = least + below + above;
        const [low, high] = limits(written(least + below, least, most));
        expect(low).toBeGreaterThanOrEqual(least - 1e-9);
        expect(high).toBeLessThanOrEqual(most + 1e-9);
        expect(low - least).toBeLessThan(0.011);
        expect(most - high).toBeLessThan(0.011);
      }),
      { numRuns: 300, seed: 129 },
    );
  });
});
