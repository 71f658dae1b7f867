import { z } from 'zod';
import { trialSchema } from '../trialSchema.ts';
import { aboutJob, chance, changedFiles, lesson, nextSize } from './common.ts';

const number = z.number().int().positive().describe('Which print of the job, from 1');
const believed = z.strictObject({ mean: z.number(), u: z.number().min(0) });
const known = chance.nullable().describe('null: not known');

/** What `fettle trial --json` prints of a print that was tried. Later versions may add fields. */
export const trialToldSchema = z
  .strictObject({
    job: aboutJob,
    trial: trialSchema.omit({ learnt: true }).extend({ number }).describe('As it stands in the job'),
    taken: z
      .array(
        z.strictObject({
          name: z.string(),
          word: z.enum(['tight', 'right', 'loose']),
          ids: z.array(z.string()),
        }),
      )
      .describe('What was said of several interfaces, and which of them it was taken for'),
    advice: z.array(
      z.strictObject({
        broken: z.string().describe('As the person said it'),
        finding: z.strictObject({ number, id: z.string() }).nullable(),
        sentence: z.string(),
      }),
    ),
    evidence: z
      .record(
        z.string(),
        z.strictObject({
          shift: z.number().describe('By how much the clearance is larger than was expected'),
          u: z.number().min(0),
          printer: believed.describe('What the print is off, counted as clearance'),
          machine: believed.describe('What the machine is off'),
        }),
      )
      .describe('What this print says, by interface, mm'),
    drawn: z.array(nextSize).describe('Sizes of this print and of the next, mm'),
    chance: z.strictObject({ before: known, after: known }).describe('Of this print, and of the next'),
    printer: lesson,
    files: changedFiles,
  })
  .describe('Fettle trial');

/** What `fettle trial --history --json` prints. Later versions may add fields. */
export const historySchema = z
  .strictObject({
    job: aboutJob.omit({ family: true }),
    trials: z.array(trialSchema.omit({ learnt: true }).extend({ number, learnt: z.boolean() })),
  })
  .describe('Every print of a Fettle job that is on record');

/** What `fettle trial --undo --json` prints. Later versions may add fields. */
export const undoneSchema = z
  .strictObject({
    undone: z.strictObject({ number, date: z.string(), felt: trialSchema.shape.felt.unwrap() }),
    kept: trialSchema.shape.inspected.unwrap().nullable().describe('What callipers read of it stays'),
    printer: z
      .strictObject({ name: z.string(), restored: z.literal(true) })
      .nullable()
      .describe('The profile as it was before it learnt from it; null: it had not'),
    files: changedFiles,
  })
  .describe('What was said of a print, taken back');
