import type { Vec3 } from '../solid/vector.ts';

/** A triangle mesh with shared vertices. Lengths in the unit of the file until a unit is decided. */
export interface DonorMesh {
  /** x, y, z of each vertex. */
  readonly positions: Float64Array;
  /** Three vertex numbers a triangle, counter-clockwise from outside. */
  readonly triangles: Uint32Array;
}

/** Units a model may be drawn in; the words of 3MF, shortened. */
export type LengthUnit = 'micron' | 'mm' | 'cm' | 'inch' | 'foot' | 'metre';

/** Length of each unit, mm. Inch and foot exact since the agreement of 1959. */
export const millimetresIn: Readonly<Record<LengthUnit, number>> = {
  micron: 0.001,
  mm: 1,
  cm: 10,
  inch: 25.4,
  foot: 304.8,
  metre: 1000,
};

/** What a mesh is, counted on the mesh itself: vertices are the same only where their numbers are. */
export interface DonorSoundness {
  /** Two triangles at each edge that run it opposite ways, one fan of them around each vertex. */
  readonly manifold: boolean;
  /** Closed surfaces that hold material; hollows inside them are not counted. */
  readonly bodies: number;
  /** Holes through, all surfaces together: the sum of 1 - (vertices - edges + triangles) / 2. */
  readonly genus: number;
  /** Signed volume, cube of the mesh's unit. */
  readonly volume: number;
}

export type DonorFormat = 'stl-binary' | 'stl-ascii' | '3mf';

export type RepairKind =
  | 'numbers-missing'
  | 'collapsed-dropped'
  | 'corners-joined'
  | 'doubles-dropped'
  | 'seams-split'
  | 'faces-turned'
  | 'holes-filled'
  | 'touching-parted'
  | 'skins-dropped'
  | 'turned-outward'
  | 'flats-dropped';

/** Something put right while reading, always reported. */
export interface Repair {
  readonly kind: RepairKind;
  readonly count: number;
  /** Where the first one is, unit of the file; null where no place can be named. */
  readonly at: Vec3 | null;
  /** The same in words of a bench. */
  readonly sentence: string;
}

export type DonorRemarkKind =
  | 'count-wrong'
  | 'bytes-left'
  | 'several-solids'
  | 'name-misleads'
  | 'not-placed'
  | 'support-left-out'
  | 'header-odd';

/** Something odd about the file that needed no repair. */
export interface DonorRemark {
  readonly kind: DonorRemarkKind;
  readonly sentence: string;
}

/** A donor as it came out of its file: closed, right way out. */
export interface ReadDonor {
  readonly mesh: DonorMesh;
  readonly format: DonorFormat;
  /** What the file says its numbers are; null where it says nothing, as nearly every STL. */
  readonly declaredUnit: LengthUnit | null;
  /** Triangles in the file, objects of a 3MF as often as they are placed; the mesh may have other ones after repairs. */
  readonly triangles: number;
  readonly sound: DonorSoundness;
  readonly repairs: readonly Repair[];
  readonly remarks: readonly DonorRemark[];
}
