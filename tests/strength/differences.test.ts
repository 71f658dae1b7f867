import { describe, expect, it } from 'vitest';
import { adhesiveArea } from '../../src/strength/adhesiveArea.ts';
import { rectangularPlate } from '../../src/strength/rectangularPlate.ts';
import { riserStability } from '../../src/strength/riserStability.ts';
import { rockingGap } from '../../src/strength/rockingGap.ts';
import { compressBlock, freeHeight } from '../../src/strength/rubberBlock.ts';
import { barbedStem } from '../../src/strength/splitStem.ts';
import { springArm } from '../../src/strength/springArm.ts';
import { settleFeet } from '../../src/strength/springFeet.ts';
import { tipping } from '../../src/strength/tipping.ts';
import { footLoads } from '../../src/strength/worstStance.ts';

/** The plan takes sensitivities by differences, so a small step must say the same as a smaller one, and the function the same twice. */
const compound = { modulus: 20, shapeShare: 1, bulk: 2000 };
const foot = (diameter: number) => ({ outline: { kind: 'disc' as const, diameter }, height: 6, compound });
const feet: [number, number][] = [
  [0, 0],
  [300, 0],
  [290, 200],
  [10, 200],
];
const arm = {
  length: 12,
  thickness: 1.2,
  tipThickness: 0.8,
  width: 5,
  fillet: 0.5,
  modulus: 2000,
  poisson: 0.35,
  insertionAngle: 0.5,
  retentionAngle: 0.8,
  friction: 0.3,
};
const stem = {
  ...arm,
  diameter: 5.6,
  legs: 3,
  slot: 1.2,
  bore: 1.9,
  barbDiameter: 6.8,
};
const cover = { length: 60, width: 40, thickness: 2, modulus: 2000, poisson: 0.35 };
const pad = { kind: 'pad', force: 10, spread: 10 } as const;

describe('differences that the plan can take', () => {
  it.each<[string, (x: number) => number, number]>([
    ['height of a rubber foot by its load', (x) => compressBlock(foot(12), x).height, 15],
    ['free height by diameter', (x) => freeHeight(foot(x), 5.8, 15), 12],
    ['bulge by load', (x) => compressBlock(foot(12), x).bulge, 15],
    ['worst load by position', (x) => footLoads(feet, { at: [x, 90], doubt: 4 }, 50).most[1]!, 140],
    [
      'load on springy feet by height',
      (x) =>
        settleFeet(
          feet.map((at, i) => ({ at, stiffness: 80, height: i === 2 ? x : 6 })),
          [150, 90],
          50,
        ).loads[2]!,
      6.1,
    ],
    ['rocking gap by height', (x) => rockingGap(feet, [6, x, 6, 6], { at: [150, 90], doubt: 0 }).gap, 6.4],
    ['tipping angle by height', (x) => tipping(feet, { at: [150, 90], doubt: 5 }, x).angle, 70],
    [
      'push on a riser by slope',
      (x) =>
        riserStability({
          slope: x,
          height: 20,
          base: 30,
          loadAt: 15,
          load: 20,
          push: 0,
          frictionTop: 0.1,
          frictionDesk: 0.4,
        }).deskFriction,
      0.3,
    ],
    ['tape by load', (x) => adhesiveArea({ lasting: 0, momentary: x }), 5],
    ['arm strain by thickness', (x) => springArm({ ...arm, thickness: x }, [0.6])[0]!.peakStrain, 1.2],
    ['arm push by length', (x) => springArm({ ...arm, length: x }, [0.6])[0]!.pushIn.force!, 12],
    ['stem strain by hole', (x) => barbedStem(stem, [x])[0]!.strain, 6.2],
    ['stem pull by slot', (x) => barbedStem({ ...stem, slot: x }, [6.2])[0]!.pullOut.force!, 1.2],
    [
      'deflection of a cover by thickness',
      (x) => rectangularPlate({ ...cover, edge: 'clamped', thickness: x }, pad).deflection,
      2,
    ],
    [
      'stress of a cover by width',
      (x) => rectangularPlate({ ...cover, edge: 'simple', width: x }, pad).stress,
      40,
    ],
  ])('%s', (_, f, x) => {
    const slope = (h: number) => (f(x + h) - f(x - h)) / (2 * h);
    const [coarse, fine] = [slope(1e-3 * x), slope(1e-5 * x)];
    expect(Math.abs(fine)).toBeGreaterThan(0);
    expect(Math.abs(coarse / fine - 1)).toBeLessThan(1e-3);
    expect(f(x)).toBe(f(x));
  });
});
