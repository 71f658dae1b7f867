import { z } from 'zod';
import { resultSchema } from '../resultSchema.ts';

/** One thing wrong with what was given, as `--json` lists it. */
const problem = z.strictObject({
  about: z.string().describe('The job file, or the folder for its files'),
  code: z.string().describe('Stable; the sentence may improve'),
  field: z.string().describe('Empty for the whole file'),
  value: z.string().describe('What was given, shortened'),
  allowed: z.string(),
  reason: z.string().optional(),
});

const file = z.string().describe('Job file, as given');
const count = z.number().int().min(0);

/** What `fettle make --json` prints of several jobs. Later versions may add fields. */
export const batchSchema = z
  .strictObject({
    jobs: z
      .array(
        z.union([
          z.strictObject({
            file,
            how: z.enum(['made', 'kept']).describe('Kept: it was made before, and is unchanged'),
            minutes: z.number().positive().describe('Roughly, of all copies'),
            result: resultSchema.describe('The very object that the job gives when it is made alone'),
          }),
          z.strictObject({ file, how: z.literal('refused'), problems: z.array(problem).min(1) }),
          z.strictObject({
            file,
            how: z.literal('broke'),
            why: z.string().describe("A fault of Fettle's own, or of the machine it runs on"),
          }),
        ]),
      )
      .describe('In the order given'),
    summary: z.strictObject({
      ...{ jobs: count, made: count, kept: count, refused: count, broke: count },
      failing: count.describe('Made or kept, with a finding that fails'),
      mass: z.number().min(0).describe('Of all copies, g, printed solid'),
      minutes: z.number().min(0).describe('Of all copies, roughly'),
    }),
  })
  .describe('What became of several Fettle jobs');
