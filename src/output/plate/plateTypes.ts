import type { Contour } from '../../solid/vector.ts';

/** Turn about z, degrees, counter-clockwise seen from above. Quarter turns only: what is drawn for the axes of the
 *  printer keeps to them. */
export type Turn = 0 | 90 | 180 | 270;

/** A part to be laid out, as often as it is asked for. */
export interface PlateItem {
  /** Shadow on the bed, mm: outer contours only, counter-clockwise. */
  readonly outline: readonly Contour[];
  /** mm above the bed. */
  readonly height: number;
  /** How many, 1 or more. */
  readonly count: number;
  /** Turns it may be given; the first one is preferred. */
  readonly turns: readonly Turn[];
}

/** Room of the printer, mm. */
export interface Bed {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

export interface PlateOptions {
  /** Least distance from part to part and from part to the edge of the bed, mm. */
  readonly spacing: number;
}

/** Where one copy stands. */
export interface PlatePlacement {
  /** Place in the list of items, from 0. */
  readonly item: number;
  /** Which of its copies, from 1. */
  readonly copy: number;
  readonly turn: Turn;
  /** Front left corner of its box once turned, from the front left corner of the bed, mm. */
  readonly x: number;
  readonly y: number;
}

/** A layout that was checked. */
export interface Plate {
  readonly ok: true;
  /** In the order of the items and their copies. */
  readonly placements: readonly PlatePlacement[];
  /** Box around everything, from the front left corner of the bed, mm. */
  readonly used: { readonly from: readonly [number, number]; readonly to: readonly [number, number] };
  /** Least distance between two parts, measured between their shadows, mm; null where all are further apart than
   *  anybody asked, or there is only one. */
  readonly gap: number | null;
  /** Whether tall parts stand inside, or room was so scarce that they stand where they fit. */
  readonly tallestInside: boolean;
}

/** Why a layout is refused. Lengths in mm. */
export interface PlateRefusal {
  readonly ok: false;
  readonly code: 'plate_too_tall' | 'plate_too_wide' | 'plate_full';
  /** The item that does not fit even alone; null when it is their number. */
  readonly item: number | null;
  /** What that item needs with its spacing; of all parts together, none is known. */
  readonly needs: Bed | null;
  readonly bed: Bed;
  readonly asked: number;
  /** How many fit at once; 0 when one does not fit even alone. */
  readonly fit: number;
}
