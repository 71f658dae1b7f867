import { describe, expect, it } from 'vitest';
import type { RoundPressFit } from '../../src/strength/pressFit.ts';
import { rectangularPressFit, roundPressFit } from '../../src/strength/pressFit.ts';

const plastic = { modulus: 2000, poisson: 0.35 };
const fit: RoundPressFit = {
  diameter: 4,
  wall: 2,
  length: 5,
  interference: 0.04,
  post: plastic,
  socket: plastic,
  friction: 0.3,
};

describe('round press fit (Lame; Shigley, press and shrink fits, from memory)', () => {
  it("of a solid post of the socket's own material: p = E delta / (2 D) (1 - (D / Do)^2), Poisson's ratio cancels", () => {
    for (const wall of [0.5, 1, 2, 5]) {
      for (const poisson of [0, 0.2, 0.45]) {
        const same = { modulus: 2000, poisson };
        const { pressure } = roundPressFit({ ...fit, wall, post: same, socket: same });
        expect(pressure).toBeCloseTo(((2000 * 0.04) / 8) * (1 - (4 / (4 + 2 * wall)) ** 2), 10);
      }
    }
  });

  it('is in balance and compatible: post shrinks and socket grows by the interference between them', () => {
    const steel = { modulus: 207000, poisson: 0.292 };
    const { pressure: p, hoopStrain, hoopStress } = roundPressFit({ ...fit, post: steel, postBore: 2 });
    // Lame's constants of each cylinder from its two pressures, independent of the closed form.
    const lame = (inner: number, outer: number, pi: number, po: number) => {
      const b = ((pi - po) * inner ** 2 * outer ** 2) / (outer ** 2 - inner ** 2);
      const a = (pi * inner ** 2 - po * outer ** 2) / (outer ** 2 - inner ** 2);
      return { radial: (r: number) => a - b / r ** 2, hoop: (r: number) => a + b / r ** 2 };
    };
    const socket = lame(2, 4, p, 0);
    const post = lame(1, 2, 0, p);
    expect(socket.hoop(2)).toBeCloseTo(hoopStress, 9);
    const grows = (socket.hoop(2) - 0.35 * socket.radial(2)) / 2000;
    const shrinks = (post.hoop(2) - 0.292 * post.radial(2)) / 207000;
    expect(grows).toBeCloseTo(hoopStrain, 12);
    expect((grows - shrinks) * 4).toBeCloseTo(0.04, 12);
  });

  it('of a thin wall tends to p = 2 t E delta / D^2, of a rigid post to hoop strain delta / D', () => {
    const rigid = { modulus: 1e12, poisson: 0.3 };
    const thin = roundPressFit({ ...fit, wall: 0.004, post: rigid });
    expect(thin.pressure / ((2 * 0.004 * 2000 * 0.04) / 16)).toBeCloseTo(1, 2);
    expect(thin.hoopStrain).toBeCloseTo(0.01, 6);
    expect(roundPressFit({ ...fit, post: rigid }).hoopStrain).toBeCloseTo(0.01, 6);
  });

  it('of a hole in a large body: p = E delta / (2 D) for one material', () => {
    expect(roundPressFit({ ...fit, wall: 1e9 }).pressure).toBeCloseTo(10, 6);
    expect(roundPressFit({ ...fit, wall: Infinity }).pressure).toBeCloseTo(10, 12);
  });

  it('pushes with friction times pressure times area, and not at all with clearance', () => {
    const { pressure, pushForce } = roundPressFit(fit);
    expect(pushForce).toBeCloseTo(0.3 * pressure * Math.PI * 4 * 5, 10);
    expect(roundPressFit({ ...fit, interference: -0.1 })).toEqual({
      pressure: 0,
      hoopStress: 0,
      hoopStrain: 0,
      pushForce: 0,
    });
  });

  it.each([
    ['diameter', { diameter: 0 }],
    ['postBore', { postBore: 4 }],
    ['wall', { wall: 0 }],
    ['interference', { interference: Number.NaN }],
    ['socket modulus', { socket: { modulus: 0, poisson: 0.3 } }],
    ['post poisson', { post: { modulus: 1, poisson: 0.6 } }],
  ])('refuses %s out of range by name', (name, change) => {
    expect(() => roundPressFit({ ...fit, ...change })).toThrow(`press fit requires ${name} `);
  });
});

describe('rectangular press fit', () => {
  const square = (size: number, wall: number, delta: number) =>
    rectangularPressFit({
      width: size,
      depth: size,
      wall,
      length: 5,
      interference: { width: delta, depth: delta },
      post: plastic,
      socket: plastic,
      friction: 0.3,
    });

  it('of a square is never gentler than the round fit of its width, and meets it for thin walls', () => {
    for (const wall of [0.01, 0.1, 0.5, 1, 2, 10]) {
      const ratio = square(4, wall, 0.04).pressure / roundPressFit({ ...fit, wall }).pressure;
      expect(ratio).toBeGreaterThanOrEqual(1);
      expect(ratio).toBeLessThan(3);
      if (wall <= 0.01) expect(ratio).toBeLessThan(1.02);
    }
  });

  it('stretches the walls by no more than the interference', () => {
    for (const wall of [0.01, 1, 100]) expect(square(4, wall, 0.04).hoopStrain).toBeLessThanOrEqual(0.01);
    const one = rectangularPressFit({
      width: 4,
      depth: 2,
      wall: 1,
      length: 5,
      interference: { width: 0.04, depth: -1 },
      post: plastic,
      socket: plastic,
      friction: 0.3,
    });
    expect(one.pushForce).toBeCloseTo(0.3 * one.pressure * 2 * 2 * 5, 10);
    // Balance of one half of the socket: pressure on the broad face against the tension of two walls.
    expect(one.pressure * 2).toBeCloseTo(2 * 1 * one.hoopStress, 10);
  });
});
