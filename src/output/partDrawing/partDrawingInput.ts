import type { InterfaceKind } from '../../family/interface.ts';
import type { Mesh } from '../../solid/mesh.ts';
import type { Vec3 } from '../../solid/vector.ts';

/** A size that the print must have. Frame of the part, mm. */
export interface SizeAsked {
  readonly id: string;
  readonly name: string;
  readonly kind: InterfaceKind;
  /** Middle of the feature; of a step its far end, `across` pointing from there to the face it starts from. */
  readonly at: Readonly<Vec3>;
  readonly axis: Readonly<Vec3>;
  readonly across: Readonly<Vec3>;
  readonly length: number;
  /** Whether it is a diameter, even where flats leave little of the circle. */
  readonly diameter: boolean;
  /** As it stands on the mesh. */
  readonly drawn: number;
  /** As it should come out, and the limits between which it fits; null: no limit on that side. */
  readonly nominal: number;
  readonly least: number | null;
  readonly most: number | null;
}

/** A round hole or post found on the mesh; mm. */
export interface RoundFound {
  readonly axis: Readonly<Vec3>;
  /** Amid it, on its axis. */
  readonly at: Readonly<Vec3>;
  readonly diameter: number;
  readonly length: number;
}

/** How views are set out (ISO 5456-2): first angle, as in Europe, or third angle, as in America. */
export type Projection = 'first' | 'third';

/** What stands in the title block (ISO 7200); empty fields are left out or left blank. */
export interface TitleFields {
  readonly title: string;
  readonly part: string;
  readonly quantity: number;
  readonly material: string;
  readonly printer: string;
  /** ISO date of the printer's calibration. */
  readonly calibrated: string | null;
  /** Hash of the job, which is the drawing's number; hex. */
  readonly hash: string;
  readonly author: string | null;
  readonly licence: string | null;
  /** This sheet, and how many there are. */
  readonly sheet: readonly [number, number];
}

/** What the sheet of one part is drawn from. */
export interface PartDrawingInput {
  readonly mesh: Mesh;
  readonly sizes: readonly SizeAsked[];
  readonly rounds: readonly RoundFound[];
  readonly projection: Projection;
  readonly fields: TitleFields;
}
