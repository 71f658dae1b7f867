import { expect, it } from 'vitest';
import { fitCylinder } from '../../../src/donor/features/fitCylinder.ts';
import { type Draws, drawPose, drawsOf, posed, turned } from './syntheticDonor.ts';

/** Points on a cylinder along z, some of the turn, put into a pose. */
function points(draws: Draws, radius: number, turn: number, long: number, noise: number) {
  const pose = drawPose(draws, 30);
  const list = Array.from({ length: 60 }, () => {
    const angle = draws.between(0, turn * 2 * Math.PI);
    const r = radius + draws.between(-noise, noise);
    return posed(pose, [r * Math.cos(angle), r * Math.sin(angle), draws.between(0, long)]);
  });
  const [ax, ay, az] = turned(pose, [0.05, -0.03, 1]);
  const [cx, cy, cz] = posed(pose, [0.1 * radius, 0.05 * radius, 0]);
  const length = Math.hypot(ax, ay, az);
  const start = { ax: ax / length, ay: ay / length, az: az / length, cx, cy, cz, radius: 1.1 * radius };
  return { list: Float64Array.from(list.flat()), start, axis: turned(pose, [0, 0, 1]) };
}

it('finds axis and radius of points that lie on a cylinder', () => {
  for (let seed = 1; seed <= 50; seed++) {
    const draws = drawsOf(seed);
    const radius = draws.between(0.3, 40);
    const { list, start, axis } = points(
      draws,
      radius,
      draws.between(0.3, 1),
      radius * draws.between(0.2, 5),
      0,
    );
    const found = fitCylinder(list, start)!;
    expect(found.radius / radius).toBeCloseTo(1, 6);
    const along = found.ax * axis[0] + found.ay * axis[1] + found.az * axis[2];
    expect(Math.abs(along)).toBeCloseTo(1, 8);
  }
});

it('is off by no more than its points are', () => {
  for (let seed = 1; seed <= 50; seed++) {
    const { list, start } = points(drawsOf(seed), 5, 1, 10, 1e-3);
    expect(Math.abs(fitCylinder(list, start)!.radius - 5)).toBeLessThan(5e-4);
  }
});

it('gives nothing for no points', () => {
  expect(
    fitCylinder(new Float64Array(0), { ax: 0, ay: 0, az: 1, cx: 0, cy: 0, cz: 0, radius: 1 }),
  ).toBeUndefined();
});
