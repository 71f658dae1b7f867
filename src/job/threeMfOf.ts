import { type ThreeMfInput, threeMf } from '../output/threeMf/index.ts';
import type { ManifoldToplevel } from '../solid/kernel.ts';
import { type JobPlate, jobPlate, type PlateJob } from './jobPlate.ts';
import { FETTLE_VERSION } from './version.ts';

/** The 3MF of one job: its parts, each as often as the job says, laid out on the bed. Throws `Refused` when they do not fit. */
export const threeMfOf = (
  kernel: ManifoldToplevel,
  job: PlateJob,
  options: { readonly spacing?: number; readonly thumbnail?: Uint8Array } = {},
): Uint8Array<ArrayBuffer> => plateThreeMf([job], jobPlate(kernel, [job], options), options.thumbnail);

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
