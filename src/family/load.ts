import type { Vec2, Vec3 } from '../solid/vector.ts';

/** A round bar that snaps through an open mouth into a bore or slot. The profile lies across `normal`. */
export interface MouthLoad {
  readonly kind: 'mouth';
  readonly id: string;
  readonly name: string;
  /** The interface the bar ends up in. */
  readonly interface: string;
  /** Diameter of the bar, mm. */
  readonly bar: number;
  /** Middle of the profile; where it is cut. */
  readonly at: Vec3;
  /** Unit vector along the bar. */
  readonly normal: Vec3;
  /** Unit vector the bar moves along when pushed in; it leaves against it. */
  readonly inward: Vec3;
  /** The two lips as drawn, as (sideways, inward) distances from `at`, mm. */
  readonly lips: readonly [Vec2, Vec2];
  /** Half angle of the flare in front of the lips, radians from `inward`; 0 without flare. */
  readonly flare: number;
  /** Width of the flare where the bar enters, mm. */
  readonly entry: number;
  /** Everything this far inward of `at` is held by the machine, mm. */
  readonly heldFrom: number;
  /** Extent of the arms along the bar, mm. */
  readonly depth: number;
}

export type Load = MouthLoad;

/** Where a host wall takes the push of a post. */
export interface SocketWall {
  /** Interfaces of the post in the socket. */
  readonly interfaces: readonly string[];
  /** Wall of the socket, mm. */
  readonly wall: number;
  /** Length of contact, mm. */
  readonly contact: number;
  /** Plastic of the host. */
  readonly material: 'ABS' | 'PBT';
}

/** One action at the bench, with what it asks of part and machine. */
export type RouteStep =
  | { readonly kind: 'place'; readonly sentence: string }
  /** A bar snaps through a mouth. In the hand nothing old takes the push; in the machine the old part does. */
  | { readonly kind: 'snap'; readonly sentence: string; readonly load: string; readonly inHand: boolean }
  /** Posts are pushed into sockets. */
  | { readonly kind: 'press'; readonly sentence: string; readonly socket: SocketWall }
  /** A bar end is threaded along its axis into a closed bore; what room is missing, the bar's leg must bend. */
  | {
      readonly kind: 'thread';
      readonly sentence: string;
      /** Axial travel needed and available, mm; available may be Infinity off the machine. */
      readonly needed: number;
      readonly room: number;
      /** Wire of the leg that would have to bend: diameter and length, mm. */
      readonly wire: { readonly diameter: number; readonly leg: number };
      /** Distance from the pushed bore to the socket, mm; the lever on the old part. Null while the part is loose. */
      readonly lever: number | null;
      readonly socket: SocketWall;
    };

/** One order of putting the part in. */
export interface Route {
  readonly id: string;
  readonly name: string;
  readonly steps: readonly RouteStep[];
}
