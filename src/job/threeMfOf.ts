import { type ThreeMfInput, threeMf } from '../output/threeMf/index.ts';
import type { ManifoldToplevel } from '../solid/kernel.ts';
import { type JobPlate, jobPlate, type PlateJob } from './jobPlate.ts';
import { PlateRefused } from './plateRefused.ts';
import { FETTLE_VERSION } from './version.ts';

/** Spacing of the copies of one job where the bed is too full for the normal one, mm. */
const CLOSE = 2;

/** The parts of one job, each as often as the job says, laid out on the bed; closer than usual where there is no room
 *  otherwise, unless a spacing is given. Throws `PlateRefused` when they do not fit. */
export function roomyPlate(kernel: ManifoldToplevel, job: PlateJob, spacing?: number): JobPlate {
  const laid = (mm?: number) => jobPlate(kernel, [job], mm === undefined ? {} : { spacing: mm });
  try {
    return laid(spacing);
  } catch (error) {
    if (!(error instanceof PlateRefused) || spacing !== undefined) throw error;
    return laid(CLOSE);
  }
}

/** The 3MF of one job, its parts laid out as by `roomyPlate`. Throws `PlateRefused` when they do not fit. */
export const threeMfOf = (
  kernel: ManifoldToplevel,
  job: PlateJob,
  { spacing, thumbnail }: { readonly spacing?: number; readonly thumbnail?: Uint8Array } = {},
): Uint8Array<ArrayBuffer> => plateThreeMf([job], roomyPlate(kernel, job, spacing), thumbnail);

/** The 3MF of a plate. `jobs` as it was laid out from. */
export function plateThreeMf(
  jobs: readonly PlateJob[],
  { parts, plate, placements }: JobPlate,
  thumbnail?: Uint8Array,
): Uint8Array<ArrayBuffer> {
  const all = (of: (job: PlateJob) => string | undefined): readonly string[] => [
    ...new Set(jobs.map(of).filter((text) => text !== undefined && text !== '') as string[]),
  ];
  const titles = all(({ result }) => result.job.title);
  const input: ThreeMfInput = {
    title: titles.join('; '),
    author: all(({ prepared }) => prepared.job.author).join('; '),
    licence: licenceOf(jobs),
    description: `${plate.placements.length} to print at once, ${jobs[0]!.result.job.material}`,
    application: `Fettle ${FETTLE_VERSION}`,
    hash: all(({ result }) => result.job.hash).join(' '),
    material: jobs[0]!.result.job.material,
    printer: jobs[0]!.result.job.printer,
    objects: parts.map(({ name, id, mesh }) => ({ name, partNumber: id, mesh })),
    items: plate.placements.map(({ item }, k) => ({ object: item, placement: placements[k]! })),
    thumbnail,
  };
  return threeMf(input);
}

/** The licence all jobs share; where they differ, whose is which. */
function licenceOf(jobs: readonly PlateJob[]): string {
  const licences = jobs.map(({ prepared }) => prepared.job.licence ?? '');
  if (new Set(licences).size === 1) return licences[0]!;
  return jobs.map(({ result }, k) => `${result.job.title}: ${licences[k] || 'not said'}`).join('; ');
}
