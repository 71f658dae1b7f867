import { type PlateObject, plateSchema } from './formats/plateFormat.ts';
import type { JobPlate } from './jobPlate.ts';
import type { MakeResult } from './result.ts';

export type { PlateObject };

/** The plate in the form that is printed. Throws `ZodError` where it would break the contract, so that nobody reads it. */
export function plateObject({
  laid: { parts, plate, bed, spacing, height, mass, minutes, method, hash },
  jobs,
  files,
}: {
  readonly laid: JobPlate;
  readonly jobs: readonly { readonly file: string; readonly result: MakeResult }[];
  readonly files: PlateObject['files'];
}): PlateObject {
  return plateSchema.parse({
    hash,
    files,
    jobs: jobs.map(({ file, result: { job, chance, findings } }) => ({
      ...{ file, title: job.title, family: job.family, hash: job.hash, quantity: job.quantity, chance },
      fails: findings.filter(({ verdict }) => verdict === 'fails').length,
      cautions: findings.filter(({ verdict }) => verdict === 'caution').length,
    })),
    printer: jobs[0]!.result.job.printer,
    material: jobs[0]!.result.job.material,
    ...{ bed, spacing, gap: plate.gap, tallestInside: plate.tallestInside },
    used: { ...plate.used, height },
    placements: plate.placements.map(({ item, copy, x, y, turn }) => {
      const { job, id } = parts[item]!;
      return { job, part: id, copy, x, y, turn };
    }),
    print: { mass, minutes, method },
  });
}
