import type { PlateObject } from '../job/formats/plateFormat.ts';
import { sha256Hex } from '../job/hash.ts';
import { jobPlate } from '../job/jobPlate.ts';
import { plateAgreement } from '../job/plateAgreement.ts';
import { plateBase, plateFiles } from '../job/plateFiles.ts';
import { plateObject } from '../job/plateObject.ts';
import { Refused } from '../job/problem.ts';
import { baseOf } from './inner.ts';
import { kernel } from './kernel.ts';
import type { OpenJob } from './openedJob.ts';
import { throughPipeline } from './throughPipeline.ts';

/** One file of a plate, in memory. */
export interface PlateFile {
  readonly name: string;
  readonly kind: '3mf' | 'stl' | 'view';
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** Lays the parts of one job or several out on the bed, each as often as its job says. All jobs are for one printer, material
 *  and layer. `spacing`: least distance between parts and to the edge, mm, 1 to 50; 5 unless told. `plate` is what
 *  `fettle plate --json` prints. Throws `Refused` with every problem of the jobs, and with numbers where they do not fit. */
export async function plate(
  jobs: readonly OpenJob[],
  { spacing, name }: { readonly spacing?: number; readonly name?: string } = {},
): Promise<{ readonly plate: PlateObject; readonly files: readonly PlateFile[] }> {
  mustBeAsked(jobs, spacing);
  const manifold = await kernel();
  const made = [];
  for (const job of jobs) made.push(await throughPipeline(job));
  const [first] = made;
  const differing = made.flatMap(({ prepared }) => plateAgreement(prepared, first!.prepared, jobs[0]!.title));
  if (differing.length > 0) throw new Refused(differing);
  const laid = jobPlate(manifold, made, spacing === undefined ? {} : { spacing });
  const base = plateBase(name ?? `${baseOf(jobs[0]!, undefined)}.job.json`);
  const files = plateFiles(made, laid, base);
  return {
    files,
    plate: plateObject({
      laid,
      jobs: made.map(({ result }, k) => ({ file: jobs[k]!.title, result })),
      files: files.map(({ name: path, kind, bytes, triangles }) => ({
        ...{ path, kind, sha256: sha256Hex(bytes) },
        ...(triangles !== undefined && { triangles }),
      })),
    }),
  };
}

function mustBeAsked(jobs: readonly OpenJob[], spacing: number | undefined): void {
  const refuse = (code: string, field: string, value: string, allowed: string) => {
    throw new Refused([{ code, field, value, allowed }]);
  };
  if (jobs.length === 0) refuse('no_jobs', 'jobs', 'none', 'at least one job');
  if (spacing !== undefined && !(spacing >= 1 && spacing <= 50))
    refuse('spacing_range', 'spacing', String(spacing), '1 to 50 mm');
}
