import type { Family } from '../../../src/family/family.ts';
import { make } from '../../../src/job/make.ts';
import { prepare } from '../../../src/job/prepare.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import { roomyPlate } from '../../../src/job/threeMfOf.ts';
import { type BedView, bedView } from '../../../src/output/plate/index.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { RefusedJob } from '../protocol.ts';
import { orRefused } from './refusals.ts';

/** All copies of a job on the bed, as its 3MF lays them. */
export interface BedFacts extends BedView {
  /** Least distance asked for between parts and to the edge, mm. */
  readonly spacing: number;
  /** Box around all parts, mm. */
  readonly used: readonly [number, number, number];
  /** How many are turned from how the part lies in its STL. */
  readonly turned: number;
  readonly tallestInside: boolean;
  /** g, printed solid, and minutes, with how these were reckoned. */
  readonly mass: number;
  readonly minutes: number;
  readonly method: string;
}

/** Lays the job's parts on the bed, each as often as the job says; refused with numbers where they do not fit. */
export const bedOf = (
  kernel: ManifoldToplevel,
  families: readonly Family[],
  file: JobFile,
): BedFacts | RefusedJob =>
  orRefused(() => {
    const { job, family } = parseJob(file, families);
    const prepared = prepare(job, family);
    const laid = roomyPlate(kernel, { prepared, result: make(kernel, prepared) });
    const { plate, height, mass, minutes, method, spacing } = laid;
    const { from, to } = plate.used;
    return {
      ...bedView(laid),
      ...{ spacing, mass, minutes, method, tallestInside: plate.tallestInside },
      used: [to[0] - from[0], to[1] - from[1], height],
      turned: plate.placements.filter(({ turn }) => turn !== 0).length,
    };
  });
