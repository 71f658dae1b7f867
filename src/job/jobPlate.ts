import {
  type Bed,
  type Plate,
  type PlateItem,
  placementOf,
  plateOf,
  shadowOf,
} from '../output/plate/index.ts';
import { printMinutes, printMinutesMethod } from '../printer/printMinutes.ts';
import type { ManifoldToplevel } from '../solid/kernel.ts';
import type { Mesh } from '../solid/mesh.ts';
import type { Placement } from '../solid/vector.ts';
import { canonical, sha256Hex } from './hash.ts';
import type { MadeJob } from './madeJob.ts';
import { plateRefused } from './plateRefused.ts';
import { SPACING } from './plateSpacing.ts';
import { plateTurns } from './plateTurns.ts';
import { FETTLE_VERSION } from './version.ts';

/** A job whose parts go on the plate, and what was made of it. */
export type PlateJob = Pick<MadeJob, 'prepared' | 'result'>;

/** A part on the plate, as often as its job asks for it. */
export interface PlatePart extends PlateItem {
  /** Place of its job in the list, from 0. */
  readonly job: number;
  /** Id of the part in its job; empty when the job makes one. */
  readonly id: string;
  /** Job and part, for a person. */
  readonly name: string;
  readonly mesh: Mesh;
}

/** Parts of one job or several, laid out to be printed at once. */
export interface JobPlate {
  readonly parts: readonly PlatePart[];
  readonly plate: Plate;
  /** Of each of the plate's placements: from the coordinates of the part to those of the bed. */
  readonly placements: readonly Placement[];
  readonly bed: Bed;
  /** mm. */
  readonly spacing: number;
  /** Tallest part, mm. */
  readonly height: number;
  /** g, printed solid. */
  readonly mass: number;
  readonly minutes: number;
  /** How the minutes were reckoned. */
  readonly method: string;
  /** SHA-256 of the jobs and the spacing, hex. */
  readonly hash: string;
}

/** Lays all parts of the jobs, each as often as its job says, on the bed of their printer. The jobs agree about the printer
 *  (`plateAgreement`); the first one's is taken. Throws `PlateRefused` with numbers when they do not fit. */
export function jobPlate(
  kernel: ManifoldToplevel,
  jobs: readonly PlateJob[],
  { spacing = SPACING.normal }: { readonly spacing?: number } = {},
): JobPlate {
  const { printer } = jobs[0]!.prepared;
  const parts = jobs.flatMap((job, k) => partsOf(kernel, job, k));
  const found = plateOf(kernel, parts, printer.bed, { spacing });
  if (!found.ok) throw plateRefused(found, parts, spacing);

  const each = jobs.flatMap(({ result }) =>
    result.parts.map(({ print }) => ({ print, count: result.job.quantity })),
  );
  const sum = (of: (print: (typeof each)[number]['print']) => number) =>
    each.reduce((total, { print, count }) => total + count * of(print), 0);
  return {
    parts,
    plate: found,
    placements: found.placements.map((at) => placementOf(parts[at.item]!.outline, at)),
    bed: printer.bed,
    spacing,
    height: Math.max(...parts.map(({ height }) => height)),
    mass: sum(({ mass }) => mass),
    // The layers are those of the tallest part: all parts share them.
    minutes: printMinutes(
      sum(({ volume }) => volume),
      Math.max(...each.map(({ print }) => print.layers)),
      printer,
    ),
    method: printMinutesMethod,
    hash: sha256Hex(
      canonical({
        plate: 1,
        jobs: jobs.map(({ result }) => result.job.hash),
        spacing,
        version: FETTLE_VERSION,
      }),
    ),
  };
}

const partsOf = (
  kernel: ManifoldToplevel,
  { prepared, result: { job, parts } }: PlateJob,
  k: number,
): readonly PlatePart[] =>
  parts.map(({ id, name, mesh, print }) => ({
    job: k,
    id,
    name: name === '' ? job.title : `${job.title}, ${name}`,
    mesh,
    outline: shadowOf(kernel, mesh),
    height: print.extents[2],
    count: job.quantity,
    turns: plateTurns(prepared.printer, print.extents),
  }));
