import type { Contour, Placement } from '../../solid/vector.ts';
import type { PlatePlacement } from './plateTypes.ts';
import { boxOf, cosSin } from './turned.ts';

/** From the coordinates of a part, of which `outline` is the shadow, to those of the bed. */
export function placementOf(
  outline: readonly Contour[],
  { turn, x, y }: Pick<PlatePlacement, 'turn' | 'x' | 'y'>,
): Placement {
  const [cos, sin] = cosSin(turn);
  const { min } = boxOf(
    outline.map((contour) =>
      contour.map(([u, v]): [number, number] => [cos * u - sin * v, sin * u + cos * v]),
    ),
  );
  return { rotation: [cos, -sin, 0, sin, cos, 0, 0, 0, 1], translation: [x - min[0], y - min[1], 0] };
}
