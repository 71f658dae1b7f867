import { z } from 'zod';
import { printerProfileSchema } from '../printer/profile.ts';

const text = z.union([z.string().max(200), z.number()]);
const fit = z.union([z.enum(['press', 'snug', 'sliding', 'free']), z.tuple([z.number(), z.number()])]);

/** The job file, version 1. Readings stay as typed, for ever. */
export const jobSchema = z
  .strictObject({
    fettle: z.literal(1).describe('Version of the job format'),
    family: z.string().max(100).describe('Which kind of part'),
    title: z.string().max(200).optional().describe('What this job is called'),
    quantity: z.number().int().min(1).max(1000).default(1).describe('How many to make'),
    unit: z.enum(['mm', 'in']).default('mm').describe('Unit of numbers typed without one'),
    callipers: z
      .strictObject({
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
      })
      .optional(),
    readings: z
      .record(z.string().max(100), z.array(text).max(100))
      .default({})
      .describe('Calliper readings as typed, by reading'),
    choices: z.record(z.string().max(100), z.string().max(100)).default({}),
    sizes: z
      .record(z.string().max(100), text)
      .default({})
      .describe('Sizes set by the maker; lengths or ratios'),
    fits: z
      .record(z.string().max(100), fit)
      .default({})
      .describe('Fit class or clearance window in mm, by interface, where the normal one is not wanted'),
    material: z.string().max(100).default('PLA'),
    printer: z
      .union([z.string().max(1000), printerProfileSchema])
      .optional()
      .describe('Printer profile, or the name of its file beside the job; absent: an uncalibrated printer'),
    surroundings: z
      .strictObject({ temperature: text.describe('Warmest the part gets, in degrees Celsius') })
      .optional(),
    note: z.string().max(5000).optional(),
  })
  .describe('Fettle job');

/** A job as written in its file. */
export type JobFile = z.input<typeof jobSchema>;
/** A job with everything that has a normal value filled in. */
export type Job = z.output<typeof jobSchema>;
