import { z } from 'zod';

const text = z.union([z.string().max(200), z.number()]);

/** A pair of callipers as its owner describes it; lengths as typed. */
export const callipersSchema = z.strictObject({
  name: z
    .string()
    .trim()
    .min(1)
    .max(80)
    .optional()
    .describe('Which callipers; the same name as in a printer profile means the same callipers'),
  scale: z.enum(['digital', 'dial', 'vernier']).optional(),
  resolution: text.optional().describe('Smallest step of the scale'),
  zero: text.optional().describe('What the closed jaws show'),
  landWidth: text.optional().describe('Width of the flat on the inside jaws'),
  permissibleError: text.optional().describe('Half-width; DIN 862 when absent'),
  repeatability: text.optional().describe('Standard deviation of one reading in this hand'),
});
