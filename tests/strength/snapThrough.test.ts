import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SnapThrough } from '../../src/strength/snapThrough.ts';
import { snapThrough } from '../../src/strength/snapThrough.ts';

const clip: SnapThrough = {
  barDiameter: 1.6,
  mouth: 1.4,
  flareAngle: Math.PI / 6,
  flareWidth: 2.4,
  boreDiameter: 1.8,
  stiffness: 100,
  friction: 0.2,
};

/** The way in by brute force: how far the lip's outline must stand aside so that no point of the bar is in it, and,
 *  without friction, the push as the change of spring energy per travel. */
function byEnergy({ barDiameter, mouth, flareAngle, flareWidth, stiffness }: SnapThrough) {
  const [radius, half, outer] = [barDiameter / 2, mouth / 2, flareWidth / 2];
  const depth = (outer - half) / Math.tan(flareAngle);
  const aside = (centre: number) => {
    let most = 0;
    const at = (y: number) => {
      const across = radius ** 2 - (y - centre) ** 2;
      if (across >= 0) most = Math.max(most, Math.sqrt(across) - (half - y * Math.tan(flareAngle)));
    };
    // Heights of the lead-in, its corners among them.
    for (let k = 0; k <= 8000; k++) at((-depth * k) / 8000);
    return most;
  };
  let [push, travel] = [0, 0];
  const step = 2e-3;
  for (let centre = -depth - radius; centre < 0; centre += step) {
    const [before, now] = [aside(centre), aside(centre + step)];
    if (now > 0 && travel === 0) travel = -centre;
    push = Math.max(push, (stiffness * (now ** 2 - before ** 2)) / step);
  }
  return { push, travel };
}

describe('snapThrough', () => {
  it.each([
    ['a gentle flare, met on its flank', {}],
    ['a wide flare', { flareAngle: Math.PI / 4, flareWidth: 3 }],
    ['a flare narrower than the bar, met on its outer corner', { flareWidth: 1.5 }],
    ['a large bar in a narrow mouth', { barDiameter: 4, mouth: 2.4, flareWidth: 4.4, boreDiameter: 4.2 }],
  ])('agrees with the energy of the springs without friction: %s', (_, change) => {
    const given = { ...clip, ...change, friction: 0 };
    const expected = byEnergy(given);
    const { pushIn, deflection } = snapThrough(given);
    expect(deflection).toBeCloseTo((given.barDiameter - given.mouth) / 2, 12);
    expect(pushIn.force! / expected.push).toBeCloseTo(1, 1.5);
    expect(Math.abs(pushIn.travel - expected.travel)).toBeLessThan(0.02);
  });

  it('asks nothing of a bar that is not larger than the mouth', () => {
    for (const barDiameter of [0.5, 1.4]) {
      const { deflection, pushIn, pullOut } = snapThrough({ ...clip, barDiameter });
      expect([deflection, pushIn.force, pullOut.force]).toEqual([0, 0, 0]);
    }
  });

  it('locks where a lip stands too steep, and gives no number then', () => {
    // Friction of 1 locks at 45 degrees; the bare corner is met at acos(1.4 / 2.4) = 54 degrees.
    const steep = snapThrough({
      ...clip,
      barDiameter: 2.4,
      boreDiameter: 2.5,
      flareAngle: 0,
      flareWidth: 1.4,
      friction: 1,
    });
    expect(steep.pushIn).toMatchObject({ locks: true, force: null });
    expect(steep.pullOut).toMatchObject({ locks: true, force: null });
  });

  it('meets a square ledge behind the lips by its corner: steeper than the bar itself is no firmer hold', () => {
    const bare = snapThrough(clip).pullOut;
    expect(snapThrough({ ...clip, retentionAngle: Math.PI / 2 }).pullOut).toEqual(bare);
    const gentle = snapThrough({ ...clip, retentionAngle: Math.PI / 12 }).pullOut;
    expect(gentle.force!).toBeLessThan(bare.force!);
  });

  it('takes the same way back when both sides of the lip are bare corners', () => {
    const { pushIn, pullOut } = snapThrough({ ...clip, flareAngle: 0, flareWidth: clip.mouth });
    expect(pullOut).toEqual(pushIn);
  });

  it('plays freely until the bar meets the lips', () => {
    expect(snapThrough(clip).play).toBeCloseTo(
      Math.sqrt(0.9 ** 2 - 0.7 ** 2) - Math.sqrt(0.8 ** 2 - 0.7 ** 2),
      12,
    );
  });

  it('grows with friction and with stiffness, and is never negative or infinite', () => {
    let locked = 0;
    fc.assert(
      fc.property(
        fc.double({ min: 0.8, max: 4, noNaN: true }),
        fc.double({ min: 0.4, max: 1.1, noNaN: true }),
        fc.double({ min: 0, max: 1.5, noNaN: true }),
        fc.double({ min: 0, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (barDiameter, share, flareAngle, flare, friction) => {
          const mouth = share * barDiameter;
          const given = {
            ...clip,
            barDiameter,
            mouth,
            flareAngle,
            flareWidth: mouth + flare,
            boreDiameter: 1.2 * barDiameter,
            friction,
          };
          const base = snapThrough(given);
          const rougher = snapThrough({ ...given, friction: friction + 0.1 });
          const stiffer = snapThrough({ ...given, stiffness: 200 });
          for (const way of ['pushIn', 'pullOut'] as const) {
            const { force, locks } = base[way];
            expect(locks).toBe(force === null);
            if (force === null) {
              locked++;
              expect(rougher[way].locks).toBe(true);
              continue;
            }
            expect(force).toBeGreaterThanOrEqual(0);
            expect(force).toBeLessThan(Infinity);
            expect(rougher[way].force ?? Infinity).toBeGreaterThanOrEqual(force);
            expect(stiffer[way].force).toBeCloseTo(2 * force, 6);
          }
        },
      ),
      { seed: 7, numRuns: 300 },
    );
    expect(locked).toBeGreaterThan(10);
  });

  it.each([
    ['barDiameter', { barDiameter: 0 }],
    ['mouth', { mouth: -1 }],
    ['flareAngle', { flareAngle: Math.PI / 2 }],
    ['flareWidth', { flareWidth: 1.3 }],
    ['boreDiameter', { boreDiameter: 1.3 }],
    ['stiffness', { stiffness: Number.NaN }],
    ['friction', { friction: -0.1 }],
  ])('names %s when it is out of range', (name, change) => {
    expect(() => snapThrough({ ...clip, ...change })).toThrow(new RegExp(`requires ${name}`));
  });
});
