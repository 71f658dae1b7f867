import { changedLengths, type GrantedWish, type LengthWish } from '../../../src/job/changedLengths.ts';
import type { DonorObject } from '../../../src/job/donorObject.ts';
import { jobFacts } from '../../../src/job/jobFacts.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import { type AskedSheet, modelOf, refitSheet } from '../../../src/job/refitSheet.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { RefusedJob, ShownModel } from '../answers.ts';
import { type DonorModels, orRefusedLater } from './donorModels.ts';
import { modelInTheRound } from './modelInTheRound.ts';

/** Reads a model nobody has a job for yet, and says what it is. */
export const lookAtModel = (
  models: DonorModels,
  name: string,
  bytes: Uint8Array,
): Promise<DonorObject | RefusedJob> =>
  orRefusedLater(true, async () => {
    const { donor } = models.read(name, bytes, undefined, '');
    return models.lookingForStretches(donor, () => modelOf(donor));
  });

/** The sheet about the model of a job. */
export const sheetOfModel = (
  models: DonorModels,
  kernel: () => Promise<ManifoldToplevel>,
  file: JobFile,
  asked: Omit<AskedSheet, 'lengths'>,
): Promise<ShownModel | RefusedJob> =>
  orRefusedLater(true, async () => {
    const { task } = await models.refit(file);
    // While the changes of the job are undecided there is no family yet that readings could be of.
    const facts = await models.withFamilies(file, (families) => {
      const { job, family } = parseJob(file, families);
      return jobFacts(job, family);
    });
    const read = 'kind' in facts ? [] : facts.readings;
    const lengths = Object.fromEntries(
      read.flatMap(({ id, dimension }) =>
        id.startsWith('length') && dimension ? [[id, dimension.value]] : [],
      ),
    );
    const geometry = await kernel();
    return models.lookingForStretches(task.donor, () => {
      const { mesh, ...sheet } = refitSheet(geometry, task, { ...asked, lengths });
      return { ...sheet, round: modelInTheRound({ ...sheet, mesh }) };
    });
  });

/** What the job says of its model once a wish about its lengths is granted. */
export const grantWish = (
  models: DonorModels,
  kernel: () => Promise<ManifoldToplevel>,
  file: JobFile,
  wish: LengthWish,
): Promise<GrantedWish | RefusedJob> =>
  orRefusedLater(true, async () => {
    const { job, told, task } = await models.refit(file);
    return changedLengths(await kernel(), task, told, job.unit, wish);
  });
