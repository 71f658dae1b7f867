import type { Family } from '../../../src/family/family.ts';
import type { JobPlate, PlateJob } from '../../../src/job/jobPlate.ts';
import { make } from '../../../src/job/make.ts';
import { prepare } from '../../../src/job/prepare.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import { roomyPlate } from '../../../src/job/threeMfOf.ts';
import { type BedView, bedView } from '../../../src/output/plate/index.ts';
import type { Remembered } from '../../../src/remembered/remembered.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { RefusedJob } from '../answers.ts';
import { orRefused } from './refusals.ts';

/** What lies on the bed: all copies of a job, or of several. */
export interface BedFacts extends BedView {
  /** Least distance asked for between parts and to the edge, mm. */
  readonly spacing: number;
  /** Box around all parts, mm. */
  readonly used: readonly [number, number, number];
  /** How many are turned from how the part lies in its STL. */
  readonly turned: number;
  readonly tallestInside: boolean;
  /** Of the tallest part. */
  readonly layers: number;
  /** g, printed solid, and minutes, with how these were reckoned. */
  readonly mass: number;
  readonly minutes: number;
  readonly method: string;
  /** Jobs in their order, and which of them each kind of part is of, by its place from 0. */
  readonly jobs: readonly JobOnBed[];
  readonly jobOf: readonly number[];
}

/** What a job on the bed is like. */
export interface JobOnBed {
  readonly title: string;
  readonly quantity: number;
  /** That its parts fit the first time; null where that is not known. */
  readonly chance: number | null;
  /** Findings that fail. */
  readonly fails: number;
  readonly cautions: readonly string[];
}

/** Lays the job's parts on the bed, each as often as the job says; refused with numbers where they do not fit. */
export const bedOf = (
  kernel: ManifoldToplevel,
  families: readonly Family[],
  file: JobFile,
  known?: Remembered,
): BedFacts | RefusedJob =>
  orRefused(() => {
    const { job, family } = parseJob(file, families);
    const prepared = prepare(job, family);
    const made = { prepared, result: make(kernel, prepared, known) };
    return bedFacts([made], roomyPlate(kernel, made));
  });

/** What a plate is, for the page. `jobs` as it was laid out from. */
export function bedFacts(jobs: readonly PlateJob[], laid: JobPlate): BedFacts {
  const { plate, parts, height, mass, minutes, method, spacing } = laid;
  const { from, to } = plate.used;
  return {
    ...bedView(laid),
    ...{ spacing, mass, minutes, method, tallestInside: plate.tallestInside },
    used: [to[0] - from[0], to[1] - from[1], height],
    turned: plate.placements.filter(({ turn }) => turn !== 0).length,
    layers: Math.max(...jobs.flatMap(({ result }) => result.parts.map(({ print }) => print.layers))),
    jobs: jobs.map(({ result: { job, chance, findings, cautions } }) => ({
      ...{ title: job.title, quantity: job.quantity, chance, cautions },
      fails: findings.filter(({ verdict }) => verdict === 'fails').length,
    })),
    jobOf: parts.map(({ job }) => job),
  };
}
