import { z } from 'zod';
import { resultSchema } from '../resultSchema.ts';
import { chance, sha256 } from './common.ts';

const file = z.strictObject({
  path: z.string(),
  kind: z.string(),
  bytes: z.number().int().min(0),
  sha256,
});
const terms = { author: z.string().optional(), licence: z.string().optional() };

/** What `fettle bundle --json` prints. Later versions may add fields. */
export const packedSchema = z
  .strictObject({
    job: resultSchema.shape.job,
    chance: chance.nullable(),
    ...terms,
    file: file.extend({ kind: z.literal('bundle') }).describe('As written'),
    contents: z.array(file).describe('Paths in the bundle'),
  })
  .describe('A Fettle bundle that was packed');

const problem = z.strictObject({
  code: z.string(),
  field: z.string(),
  value: z.string(),
  allowed: z.string(),
  reason: z.string().optional(),
});

/** What `fettle open --json` prints. Later versions may add fields. */
export const openedSchema = z
  .strictObject({
    bundle: z.strictObject({
      ...{ fettle: z.string(), title: z.string(), family: z.string(), hash: sha256 },
      ...terms,
    }),
    job: z.string().describe('The job file, as written'),
    without: z
      .array(z.enum(['ladders', 'trials', 'readings', 'callipers']))
      .describe('What was left out or changed, because it speaks of another printer or machine'),
    files: z.array(file).describe('As written'),
    now: z
      .union([
        z.strictObject({ printer: z.string(), calibrated: z.string().nullable(), chance: chance.nullable() }),
        z.strictObject({ problems: z.array(problem).min(1) }),
      ])
      .nullable()
      .describe('The chance with what the job names now, or what it lacks; null where it is to be measured'),
  })
  .describe('A Fettle bundle that was opened');
