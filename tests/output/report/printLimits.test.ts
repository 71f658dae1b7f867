import { describe, expect, it } from 'vitest';
import { greatestShown, leastShown, printLimits } from '../../../src/output/report/printLimits.ts';

describe('printLimits', () => {
  // Clearance by kind as the declaration of interfaces defines it: hollow and step, printed - machine; solid, machine - printed.
  const clearanceOf = (kind: string, printed: number, machine: number): number =>
    kind === 'post' || kind === 'rib' ? machine - printed : printed - machine;

  it.each(['post', 'rib', 'bore', 'slot', 'step'] as const)('lets a %s use the whole window', (kind) => {
    const machine = 4.02;
    const [lo, hi] = [0.02, 0.17];
    const predicted = kind === 'post' || kind === 'rib' ? 3.95 : 4.11;
    const clearance = clearanceOf(kind, predicted, machine);
    const limits = printLimits({ kind, predicted, clearance, window: [lo, hi] });
    expect(limits[0]).toBeLessThan(limits[1]);
    const ends = limits.map((printed) => clearanceOf(kind, printed, machine)).sort((a, b) => a - b);
    expect(ends[0]).toBeCloseTo(lo, 12);
    expect(ends[1]).toBeCloseTo(hi, 12);
  });

  it('follows what was felt: looser by 0.05 than reckoned, the print may be larger by 0.05', () => {
    const window = [0, 0.15] as const;
    const reckoned = printLimits({ kind: 'post', predicted: 3.94, clearance: 0.08, window });
    const felt = printLimits({ kind: 'post', predicted: 3.94, clearance: 0.13, window });
    expect(felt[0] - reckoned[0]).toBeCloseTo(0.05, 12);
    expect(felt[1] - reckoned[1]).toBeCloseTo(0.05, 12);
  });

  it('rounds into the limits, but for the rounding of sums', () => {
    expect([leastShown(3.861), greatestShown(4.019)]).toEqual([3.87, 4.01]);
    expect([leastShown(3.87 + 1e-12), greatestShown(4.02 - 1e-12)]).toEqual([3.87, 4.02]);
    expect([leastShown(-0.293), greatestShown(-0.088)]).toEqual([-0.29, -0.09]);
  });
});
