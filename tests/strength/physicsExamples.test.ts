import { describe, expect, it } from 'vitest';
import { adhesiveArea, STICK_ON_CAUTION, tapeStress } from '../../src/strength/adhesiveArea.ts';
import { armFlexibility } from '../../src/strength/armFlexibility.ts';
import { blockShape, shapeFactor } from '../../src/strength/blockShape.ts';
import { unknownCentre, weighedCentre } from '../../src/strength/centreOfGravity.ts';
import { circularPlate } from '../../src/strength/circularPlate.ts';
import { contactPressure, MARKING_PRESSURE } from '../../src/strength/contactPressure.ts';
import { demand, demandAbove0, plain } from '../../src/strength/demand.ts';
import { filletConcentration } from '../../src/strength/filletConcentration.ts';
import { FINGER_FORCE, fingerPush } from '../../src/strength/fingerPush.ts';
import { jointForce } from '../../src/strength/jointForce.ts';
import { NOTICED_GAP, rockingGap } from '../../src/strength/rockingGap.ts';
import { compressBlock, freeHeight } from '../../src/strength/rubberBlock.ts';
import { stripBending } from '../../src/strength/stripBending.ts';
import { nearestEdge, supportPolygon } from '../../src/strength/supportPolygon.ts';
import { tipping } from '../../src/strength/tipping.ts';
import { footLoads } from '../../src/strength/worstStance.ts';

/** Answers that the doc comments print. */
const box = (w: number, d: number): [number, number][] => [
  [0, 0],
  [w, 0],
  [w, d],
  [0, d],
];

describe('examples in the doc comments', () => {
  it('rubber', () => {
    expect(blockShape({ kind: 'disc', diameter: 20 }).hold).toBeCloseTo(50, 12);
    expect(shapeFactor({ kind: 'rectangle', length: 40, width: 20 }, 5)).toBeCloseTo(1.3333, 4);
    const compound = { modulus: 3.25, shapeShare: 0.64, bulk: Infinity };
    const foot = { outline: { kind: 'disc', diameter: 15 }, compound } as const;
    expect(compressBlock({ ...foot, height: 6 }, 19.6133).deflection).toBeCloseTo(0.1335, 4);
    expect(compressBlock({ ...foot, height: freeHeight(foot, 6, 20) }, 20).height).toBeCloseTo(6, 9);
  });

  it('feet', () => {
    expect(
      supportPolygon([
        [0, 0],
        [10, 0],
        [5, 2],
        [10, 10],
        [0, 10],
      ]),
    ).toEqual([0, 1, 3, 4]);
    expect(nearestEdge(box(20, 10), [10, 4])).toEqual({ feet: [0, 1], inside: 4 });
    expect(unknownCentre(box(300, 200))).toEqual({ at: [150, 100], doubt: 30 });
    expect(
      weighedCentre(
        [
          [0, 0],
          [300, 0],
          [150, 200],
        ],
        [10, 10, 20],
      ).at,
    ).toEqual([150, 100]);
    const { most, least } = footLoads(box(30, 20), { at: [15, 10], doubt: 0 }, 40);
    expect(most.map((f) => plain(f))).toEqual([20, 20, 20, 20]);
    expect(least.map((f) => plain(f))).toEqual([0, 0, 0, 0]);
    expect(rockingGap(box(30, 20), [6, 6, 6, 5.7], { at: [16, 9], doubt: 0 }).gap).toBeCloseTo(0.3, 12);
    expect(tipping(box(300, 200), { at: [150, 60], doubt: 0 }, 60).angle).toBeCloseTo(0.785, 3);
  });

  it('arms and plates', () => {
    const arm = { length: 12, thickness: 1.2, width: 5, root: 'rigid' } as const;
    expect(armFlexibility(arm, 2000, 0.35).bending).toBeCloseTo(0.4, 9);
    expect(filletConcentration(0.4, 2)).toBeCloseTo(1.624, 3);
    expect(jointForce(10, 0.6, Math.PI / 6).force).toBeCloseTo(18.01, 2);
    const plate = { thickness: 2, modulus: 2000, poisson: 0.3 };
    const round = circularPlate(
      { ...plate, diameter: 60, edge: 'clamped' },
      { kind: 'uniform', pressure: 0.001 },
    );
    expect(round.deflection).toBeCloseTo(0.008638, 6);
    expect(fingerPush(40)).toEqual({ kind: 'pad', force: 10, spread: 10 });
    const strip = { ...plate, span: 60, width: 10, ends: 'simple' } as const;
    expect(stripBending(strip, { force: 10, spread: 0 }).deflection).toBeCloseTo(3.375, 9);
  });

  it('refusals', () => {
    expect(() => demand('plate', 'thickness', 0, false, 'above 0 mm')).toThrow(
      new RangeError('plate requires thickness above 0 mm (given 0)'),
    );
    expect(() => demand('plate', 'thickness', Number.NaN, true, 'above 0 mm')).toThrow(RangeError);
    expect(() => demandAbove0('plate', { span: 40, thickness: -1 })).toThrow(
      new RangeError('plate requires thickness above 0 (given -1)'),
    );
    expect(plain(1.7999999999999998)).toBe(1.8);
  });

  it('limits: 0.2 mm of rocking, 10 N of IEC 61032, a foot that marks, tape that peels', () => {
    expect(NOTICED_GAP).toBe(0.2);
    expect(FINGER_FORCE).toBe(10);
    // 8 kg on four feet of 15 mm do not mark a desk, on four screw heads of 5 mm they do.
    expect(contactPressure(19.6, (Math.PI / 4) * 15 ** 2)).toBeLessThan(MARKING_PRESSURE);
    expect(contactPressure(19.6, (Math.PI / 4) * 5 ** 2)).toBeGreaterThan(MARKING_PRESSURE);
    expect(STICK_ON_CAUTION).toContain('not in peel');
    // 55 cm^2 a kg, and the lower end asks for more than the middle.
    expect(9.81 / tapeStress.lasting.value / 100).toBeCloseTo(55, -0.5);
    expect(adhesiveArea({ lasting: 9.81, momentary: 0 }) / 100).toBeGreaterThan(55);
  });
});
