// Forces and strains: Bayer MaterialScience, Snap-Fit Joints for Plastics (see tests/outside/springArm for the arm itself).
import { beforeAll, describe, expect, it } from 'vitest';
import {
  armDepth,
  armSizes,
  type SpringArms,
  springArms,
  widestArm,
} from '../../../src/family/blocks/springArms.ts';
import type { Made } from '../../../src/family/feature.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../../src/solid/kernel.ts';
import { realise } from '../../../src/solid/realise.ts';
import { materials } from '../../../src/standards/materials.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const row = (form: 'rectangular' | 'round', width = 34, height = 22) => ({
  opening: { form, width, height: form === 'round' ? width : height, corner: 0 },
  count: 1,
  pitch: Number.NaN,
});
const arms: SpringArms = {
  ...{ row: row('rectangular'), panelThickness: 2.5, roomBehind: 25 },
  ...{ arm: 1, armWidth: 8, bite: 0.5, reach: 4.5, play: 0.2, hold: { force: 2, why: '' } },
};
const made = (told: Partial<Made> = {}): Made => ({
  ...{ drawn: { noses: 23 }, prints: { noses: 23 }, material: materials.PETG, known: {} },
  ...told,
});
const finding = (of: SpringArms, id: string, told: Partial<Made> = {}) =>
  springArms(of, {}).findings!(made(told)).find((one) => one.id === id)!;

describe('strain of the arms', () => {
  it('is below that of the rigid-root relation 1.5 h y / l^2, and not by more than the wall explains', () => {
    const rigid = (100 * 1.5 * 1 * 0.5) / 7 ** 2;
    const { value } = finding(arms, 'arms.strain');
    expect(value).toBeLessThan(rigid);
    // A short arm on a wall is up to 80 % softer than the relation has it.
    expect(value).toBeGreaterThan(rigid / 2);
  });

  it('grows with the doubt of print and opening, a half of it a side', () => {
    const [sure, doubtful] = [0, 0.1].map((noses) => finding(arms, 'arms.strain', { doubt: { noses } }));
    // Twice 0.1 mm on the size over both noses are 0.1 mm more a side: 0.6 for 0.5.
    expect(doubtful!.value / sure!.value).toBeCloseTo(0.6 / 0.5, 6);
  });

  it('is held to what the layers bear, for arms stand upright', () => {
    expect(finding(arms, 'arms.strain').limit).toBeCloseTo(100 * materials.PETG.permissible.onceAcross.value);
  });
});

describe('push and pull', () => {
  it('follow W = P (mu + tan a) / (1 - mu tan a), both arms together', () => {
    const { details } = finding(arms, 'arms.strain');
    const across = details!['force across one arm, N'] as number;
    const w = (mu: number, angle: number) => (mu + Math.tan(angle)) / (1 - mu * Math.tan(angle));
    const { lo, hi } = materials.PETG.frictionOnSteel;
    expect(finding(arms, 'arms.push').value).toBeCloseTo(2 * across * w(hi, (35 * Math.PI) / 180), 6);
    // The arm leans by its bite over its reach less the play.
    expect(finding(arms, 'arms.pull').value).toBeCloseTo(2 * across * w(lo, Math.atan(0.5 / 4.3)), 6);
  });

  it('double with twice the openings', () => {
    const two = { ...arms, row: { ...arms.row, count: 2, pitch: 40 } };
    const told = { prints: { noses1: 23, noses2: 23 } };
    expect(finding(two, 'arms.push', told).value).toBeCloseTo(2 * finding(arms, 'arms.push').value, 9);
  });
});

describe('play', () => {
  it('is what was drawn, with whole layers, when everything is known', () => {
    // The leaning face crosses the edge 0.2 mm behind the panel; half a layer of 0.2 mm comes on top.
    expect(finding(arms, 'arms.play').value).toBeCloseTo(0.3, 9);
  });

  it('grows by the whole range of the panel, and seats the arms more bent', () => {
    const known = {
      panelThickness: {
        value: 2.5,
        u: 0.03,
        n: 4,
        contributors: [{ id: 'reading:panelThickness', u: 0.02 }],
      },
    };
    // Single readings scatter by 0.02 sqrt(4); with u that is hypot(0.03, 0.04) = 0.05.
    expect(finding(arms, 'arms.play', { known }).value).toBeCloseTo(0.3 + 0.1, 9);
    expect(finding(arms, 'arms.catch', { known }).value).toBeCloseTo(4.5 - 0.1, 9);
    const tight = { ...arms, play: 0 };
    expect(finding(tight, 'arms.seated', { known }).value).toBeGreaterThan(
      finding(tight, 'arms.seated').value,
    );
    expect(finding({ ...arms, play: 0.4 }, 'arms.seated', { known }).value).toBe(0);
  });
});

describe.each(['rectangular', 'round'] as const)('arms in a %s opening', (form) => {
  const of = { ...arms, row: row(form), armWidth: 4 };
  const size = form === 'round' ? 34 : 22;
  const noses = size + 1.1;

  it('are as wide over the crests as drawn, as thick as asked, and as deep as told', () => {
    withScope(kernel, (scope) => {
      const solid = realise(scope, springArms(of, { noses }).add!());
      const { min, max } = solid.boundingBox();
      expect(max[1] - min[1]).toBeCloseTo(noses, 5);
      expect(max[0] - min[0]).toBeCloseTo(4, 6);
      expect(-min[2]).toBeCloseTo(armDepth(of), 6);
      for (const z of [-1, -3, -6]) {
        const hits = solid.rayCast([0, 30, z], [0, 0, z]).map(({ distance }) => 30 * distance);
        expect(hits).toHaveLength(2);
        expect(Math.abs(hits[1]! - hits[0]!)).toBeCloseTo(1, 3);
      }
    });
  });

  it('lean out by no more than prints without support, and cross the edge behind the panel', () => {
    withScope(kernel, (scope) => {
      const solid = realise(scope, springArms(of, { noses: size + 1 }).add!());
      const face = (z: number) => 30 - 30 * solid.rayCast([0, 30, z], [0, 0, z])[0]!.distance;
      expect((face(-6) - face(-1)) / 5).toBeLessThan(1);
      expect(face(-2.7)).toBeCloseTo(size / 2, 3);
      expect(face(-2.5)).toBeLessThan(size / 2);
    });
  });
});

describe('sizes that suit', () => {
  const place = { row: row('rectangular'), panelThickness: 2.5, roomBehind: 25 };
  const strainOf = (material: (typeof materials)['PETG']) => {
    const sizes = armSizes(place, material);
    const noses = 22 + 2 * (sizes.bite + 0.05);
    const told = { material, prints: { noses } };
    return finding({ ...arms, ...place, ...sizes }, 'arms.strain', told);
  };

  it.each(['PETG', 'ABS', 'ASA', 'PA12'] as const)('%s bears its arms with a quarter to spare', (name) => {
    const { value, limit } = strainOf(materials[name]);
    expect(value / limit).toBeLessThan(0.7501);
  });

  it('PLA, brittle across its layers, gets the gentlest arms there are', () => {
    const { value, limit } = strainOf(materials.PLA);
    expect(value / limit).toBeGreaterThan(0.75);
    expect(armSizes(place, materials.PLA)).toMatchObject({ arm: 0.9, bite: 0.3, reach: 7 });
  });

  it('the examples of the doc comments', () => {
    const firm = { arm: 1.05, armWidth: 10, bite: 0.4, reach: 3, play: 0.15 };
    expect(armSizes(place, materials.PETG)).toEqual(firm);
    expect(armDepth({ panelThickness: 2.5, reach: 4, bite: 0.5 })).toBeCloseTo(8.185, 3);
    expect(springArms(arms, {}).interfaces?.map(({ id }) => id)).toEqual(['noses']);
  });

  it('stay within the room behind', () => {
    for (const roomBehind of [8, 9, 10, 12, 20]) {
      const sizes = armSizes({ ...place, roomBehind }, materials.PETG);
      expect(armDepth({ ...sizes, panelThickness: 2.5 }) + 0.5).toBeLessThanOrEqual(roomBehind);
    }
  });

  it('are narrow on a round edge, so that the ends stay thick', () => {
    const round = row('round', 26);
    const half = widestArm(round, 1.2) / 2;
    // What an edge of radius 13 takes off at half the width: r - sqrt(r^2 - half^2).
    expect(13 - Math.sqrt(13 ** 2 - half ** 2)).toBeLessThanOrEqual(0.2 * 1.2 + 0.01);
  });
});
