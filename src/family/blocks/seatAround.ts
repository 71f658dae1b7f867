import type { Vec2 } from '../../solid/vector.ts';
import type { Feature } from '../feature.ts';
import type { SocketPost } from './socketPost.ts';
import { wellWalls } from './wellWalls.ts';

export interface SeatAroundSocket {
  /** Id of the seat as part of the machine, and its name: "underside of the keycap". */
  readonly id: string;
  readonly name: string;
  /** The post in the socket; the seat is cut out around it. */
  readonly post: Pick<SocketPost, 'across' | 'hollow'>;
  /** What rests against the seat, along x and y, mm. */
  readonly across: Vec2;
}

/** How much wider than its socket the seat is cut out, mm: the rim of a moulded socket is rounded. Common practice, no
 *  source. */
const ROUNDED = 0.6;
/** Thickness of the seat as drawn, and how far it is drawn beyond what rests against it, mm. */
const DRAWN = 1;

/** What of the machine the part rests against, at z = 0 around a socket. Brings that solid alone.
 *  @example seatAround({ id: 'rim', name: 'underside of the keycap', post, across: [9, 11] }).hosts!()[0]!.seat // => [0, 0, 1] */
export function seatAround({ id, name, post, across }: SeatAroundSocket): Feature {
  const [x, y] = post.across;
  const size: Vec2 = [Math.max(across[0], x + 1), Math.max(across[1], y + 2)];
  const shape = () => wellWalls(post.hollow(ROUNDED), size, DRAWN, [0, DRAWN]);
  return { hosts: () => [{ id, name, seat: [0, 0, 1], keepOff: 0, shape: shape() }] };
}
