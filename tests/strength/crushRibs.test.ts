import { expect, it } from 'vitest';
import { crushRibFit } from '../../src/strength/crushRibs.ts';
import { rectangularPressFit } from '../../src/strength/pressFit.ts';

const fit = { interference: 0.1, length: 4, wall: 1.2, strength: 40, socketModulus: 2300, friction: 0.4 };

it('balances the force of two crests with the tension of two walls', () => {
  const { pressure, hoopStress, hoopStrain, pushForce } = crushRibFit(fit);
  // A crest as broad as the interference flows at three times the strength: 120 MPa on 0.1 x 4 mm.
  expect(pressure).toBeCloseTo(120, 9);
  expect(2 * hoopStress * fit.wall * fit.length).toBeCloseTo(48, 9);
  expect(hoopStrain).toBeCloseTo(5 / 2300, 9);
  expect(pushForce).toBeCloseTo(38.4, 9);
});

it('gives nothing without interference and grows in proportion to it', () => {
  expect(crushRibFit({ ...fit, interference: -0.1 })).toMatchObject({
    pressure: 0,
    hoopStrain: 0,
    pushForce: 0,
  });
  const [one, two] = [0.05, 0.1].map((interference) => crushRibFit({ ...fit, interference }).hoopStrain);
  expect(two! / one!).toBeCloseTo(2, 9);
});

it('is gentler than a flat post just as tight, which is what ribs are for', () => {
  const flat = rectangularPressFit({
    width: 4,
    depth: 4,
    wall: 1.2,
    length: 4,
    interference: { width: 0.1, depth: 0 },
    post: { modulus: 2000, poisson: 0.38 },
    socket: { modulus: 2300, poisson: 0.37 },
    friction: 0.4,
  });
  expect(crushRibFit(fit).hoopStrain).toBeLessThan(flat.hoopStrain / 2);
  expect(crushRibFit(fit).pushForce).toBeLessThan(flat.pushForce / 2);
});

it.each(['length', 'wall', 'strength', 'socketModulus'] as const)('refuses %s of 0', (name) => {
  expect(() => crushRibFit({ ...fit, [name]: 0 })).toThrow(name);
});
