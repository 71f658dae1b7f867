import { z } from 'zod';

/** JSON knows no infinity: where a window has no end, null stands for it. */
const end = z.number().nullable();

export const point = z.tuple([z.number(), z.number(), z.number()]);
export const sha256 = z.string().regex(/^[0-9a-f]{64}$/);
export const chance = z.number().min(0).max(1);
export const window = z
  .tuple([end, end])
  .describe('Least and greatest clearance that feel right, mm; null: no such end');
export const lengths = (what: string) =>
  z.record(z.string(), z.number()).describe(`${what}, by interface, mm`);
export const aboutJob = z.strictObject({
  title: z.string(),
  family: z.string(),
  path: z.string().describe('As given'),
});

/** A file that was written, as it is listed where its bytes matter. */
export const writtenFile = <const Kind extends string>(...kinds: readonly Kind[]) =>
  z.strictObject({
    path: z.string().describe('As written, from the folder the command ran in'),
    kind: z.enum(kinds),
    sha256: sha256.describe('Of its bytes, hex'),
    triangles: z.number().int().positive().optional().describe('Of a model'),
  });

/** Job and printer profile that were changed; the profile only where it learnt something. */
export const changedFiles = z.array(z.strictObject({ path: z.string(), kind: z.enum(['job', 'printer']) }));

/** Whether the printer's profile learnt something; null: the job has no profile of its own. */
export const lesson = z.strictObject({ name: z.string(), learnt: z.boolean() }).nullable();

/** A size as drawn before and now, mm. */
export const nextSize = z.strictObject({
  id: z.string().describe('Interface'),
  name: z.string(),
  before: z.number(),
  after: z.number(),
  because: z.string().optional().describe('Why, where it changes'),
});
