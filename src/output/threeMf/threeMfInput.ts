import type { Mesh } from '../../solid/mesh.ts';
import type { Placement } from '../../solid/vector.ts';

/** A part that can be built. */
export interface ThreeMfObject {
  /** Any text. */
  readonly name: string;
  /** What tells the part from others for a program; any text. */
  readonly partNumber?: string;
  /** Closed, mm. */
  readonly mesh: Mesh;
}

/** A copy of an object, and where it stands on the bed. */
export interface ThreeMfItem {
  /** Place in the list of objects, from 0. */
  readonly object: number;
  /** From the coordinates of the mesh to those of the bed: front left corner at the origin, mm. */
  readonly placement: Placement;
}

export interface ThreeMfInput {
  /** Texts may be anything; what XML cannot hold is replaced. */
  readonly title: string;
  readonly author?: string | undefined;
  /** Terms on which the file may be used, an SPDX expression. */
  readonly licence?: string | undefined;
  readonly description?: string | undefined;
  /** Program and version. */
  readonly application: string;
  /** Hash of the job, hex. */
  readonly hash: string;
  readonly material: string;
  readonly printer: string;
  readonly objects: readonly ThreeMfObject[];
  readonly items: readonly ThreeMfItem[];
  /** PNG of the whole. */
  readonly thumbnail?: Uint8Array | undefined;
}
