import type { Vec3 } from '../../solid/vector.ts';

/** What every round wall has; lengths in the unit of the mesh. */
export interface RoundFeature {
  /** `bore1`, `post2`, `arc3`: largest diameter first, equal ones by place along x, then y, then z. */
  readonly id: string;
  /** Unit vector; its largest component is positive. */
  readonly axis: Vec3;
  /** Amid the wall, on its axis. */
  readonly at: Vec3;
  /** Diameter of the largest circle inside the facets: a shaft up to it passes a bore. */
  readonly inscribed: number;
  /** Diameter of the circle around the corners of the facets: a bore from it takes a post. */
  readonly circumscribed: number;
  /** Diameter of the circle that fits the corners best, between or at the two. */
  readonly diameter: number;
  /** Standard uncertainty of `diameter` from the scatter of the corners; says nothing of how the facets were laid. */
  readonly uncertainty: number;
  /** Share of the full turn, 0 to 1. */
  readonly coverage: number;
  /** Facets around. */
  readonly facets: number;
  /** The wall's triangles, by number in the mesh it was found in. */
  readonly wall: Uint32Array;
}

/** How a bore ends: into the open or a wider hole, at a step down to a narrower one, or at its floor. */
export type BoreEnd = 'open' | 'step' | 'floor';
/** How a post ends: with its tip, or in the part. */
export type PostEnd = 'free' | 'rooted';

/** A hole that goes round, or nearly: keyways and grooves up to a sixth of the turn are let pass. Each diameter of a
 *  stepped hole is a bore of its own. */
export interface Bore extends RoundFeature {
  readonly kind: 'bore';
  readonly depth: number;
  /** A wire along the axis comes out at both ends, steps included. */
  readonly through: boolean;
  /** Against the axis, along it. */
  readonly ends: readonly [BoreEnd, BoreEnd];
}

/** A round outside. */
export interface Post extends RoundFeature {
  readonly kind: 'post';
  readonly length: number;
  /** Against the axis, along it. */
  readonly ends: readonly [PostEnd, PostEnd];
}

/** Part of a round wall: fillets, ends of slots, open mouths. Neither bore nor post. */
export interface Arc extends RoundFeature {
  readonly kind: 'arc';
  readonly hollow: boolean;
  readonly length: number;
}

/** A hollow with straight walls around that is not round. */
export interface Pocket {
  /** `pocket1`: largest width first, then by place. */
  readonly id: string;
  readonly kind: 'rectangle' | 'hexagon' | 'slot';
  readonly axis: Vec3;
  readonly at: Vec3;
  /** Between the walls that are closer: across flats, or across the slot. */
  readonly width: number;
  /** Between the others; of a hexagon across its corners, of a slot over its round ends. */
  readonly length: number;
  /** Unit vector along `length`. */
  readonly along: Vec3;
  readonly depth: number;
  readonly through: boolean;
}

/** All that was recognised. */
export interface RoundFeatures {
  readonly bores: readonly Bore[];
  readonly posts: readonly Post[];
  readonly arcs: readonly Arc[];
  readonly pockets: readonly Pocket[];
}
