import { z } from 'zod';

/** What `fettle families --json` prints. Later versions may add fields. */
export const familiesSchema = z
  .array(
    z.strictObject({
      id: z.string(),
      title: z.string(),
      version: z.number().int().positive(),
      summary: z.string(),
    }),
  )
  .describe('What Fettle can make');
