import { block } from '../../solid/primitives.ts';
import { difference, type Shape } from '../../solid/shape.ts';
import type { Vec2 } from '../../solid/vector.ts';

/** Walls of a well of the machine about the z axis, from one height to another, open at both ends. `hollow` draws the
 *  well from one height to another; `across` is its size along x and y, and the walls stand `wall` beyond it. mm. */
export function wellWalls(
  hollow: (from: number, to: number) => Shape,
  across: Readonly<Vec2>,
  wall: number,
  [from, to]: Readonly<Vec2>,
): Shape {
  const [x, y] = [across[0] / 2 + wall, across[1] / 2 + wall];
  return difference(block([-x, -y, from], [x, y, to]), hollow(from - 1, to));
}
