import type { DonorMesh } from '../../../src/donor/types.ts';
import type { Scope } from '../../../src/solid/kernel.ts';
import { type Draws, donorOf, mapped } from '../features/syntheticDonor.ts';

/** How somebody types sizes: multiples of steps, in mm. Independent of the shares that the guess goes by. */
const HABITS: Readonly<Record<'metric' | 'inch', readonly (readonly number[])[]>> = {
  metric: [[1], [1, 0.5], [5, 1], [1, 0.5, 0.1], [0.1], [0.25, 1]],
  inch: [
    [25.4 / 8, 25.4 / 16],
    [25.4 / 4, 25.4 / 32],
    [25.4 / 16, 25.4 / 64],
    [25.4 / 10, 25.4 / 20],
    [25.4 / 100],
    [25.4 / 1000],
  ],
};

/** A block with bores and a step, its sizes as somebody types them, in mm. Longest side 8 to 250 mm, evenly in the logarithm. */
export function typedPart(scope: Scope, draws: Draws, system: 'metric' | 'inch'): DonorMesh {
  const { Manifold } = scope.kernel;
  const habit = draws.oneOf(HABITS[system]);
  const typed = (mm: number): number => {
    const step = draws.oneOf(habit);
    return Math.max(1, Math.round(mm / step)) * step;
  };
  const longest = 8 * (250 / 8) ** draws.between(0, 1);
  const long = typed(longest);
  const wide = typed(longest * draws.between(0.3, 1));
  const thick = typed(longest * draws.between(0.08, 0.5));
  const block = scope.keep(Manifold.cube([long, wide, thick]));
  const step = scope.keep(Manifold.cube([typed(long * draws.between(0.2, 0.6)), 2 * wide, thick]));
  const low = typed(thick * draws.between(0.2, 0.7));
  let solid = scope.keep(block.subtract(scope.keep(step.translate(-1e-3 * long, -0.5 * wide, low))));
  for (let i = draws.whole(0, 4); i > 0; i--) {
    const diameter = typed(Math.min(wide, thick * 3) * draws.between(0.1, 0.3));
    const [x, y] = [typed(long * draws.between(0.2, 0.8)), typed(wide * draws.between(0.25, 0.75))];
    const drill = scope.keep(
      Manifold.cylinder(4 * thick, diameter / 2, diameter / 2, draws.whole(12, 48), true),
    );
    solid = scope.keep(solid.subtract(scope.keep(drill.translate(x, y, 0))));
  }
  const [dx, dy, dz] = [draws.between(-50, 50), draws.between(-50, 50), draws.between(-50, 50)];
  return mapped(donorOf(solid), ([x, y, z]) => [x + dx, y + dy, z + dz]);
}
