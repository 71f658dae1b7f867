import { z } from 'zod';
import { printerProfileSchema } from '../../printer/profile.ts';
import { PARAMETERS } from '../../printer/types.ts';

const parameter = z.enum(PARAMETERS);
const known = { value: z.number(), u: z.number().min(0) };

/** What `fettle calibrate --json` prints. Lengths in mm. Later versions may add fields. */
export const calibrationSchema = z
  .strictObject({
    profile: printerProfileSchema.describe('As written'),
    parameters: z.array(
      z.strictObject({
        parameter,
        ...known,
        prior: z.strictObject(known).describe('What it was taken for without the coupon'),
        determined: z.boolean().describe('False where the coupon told less than was known'),
      }),
    ),
    repeatability: z
      .strictObject({ value: z.number(), dof: z.number() })
      .describe('Standard deviation of one size from print to print, as the residuals alone say'),
    residuals: z.array(
      z.strictObject({
        feature: z.string(),
        measured: z.number(),
        expected: z.number(),
        residual: z.number(),
        standardised: z.number(),
        deleted: z.number().describe('Against a fit in which the feature has no say'),
        u: z.number(),
        leftOut: z.boolean(),
      }),
    ),
    doubtful: z
      .array(
        z.strictObject({
          feature: z.string(),
          number: z.number().int().describe('On the coupon'),
          reading: z.number().int().nullable().describe('Which of its readings, from 0; null: all'),
          text: z.string().describe('As typed'),
          expected: z.number(),
          U: z.number().describe('Expanded uncertainty, k = 2'),
          deleted: z.number(),
          mistake: z.enum([
            ...(['digits-swapped', 'decimal-slipped', 'wrong-unit'] as const),
            ...(['exchanged', 'one-of-several', 'unexplained'] as const),
          ]),
          likely: z.number().nullable().describe('What was probably meant'),
          leftOut: z.boolean(),
          sentence: z.string(),
        }),
      )
      .describe('Readings that do not fit the picture, the furthest off first'),
    degreesOfFreedom: z.number(),
    remarks: z.array(
      z.strictObject({
        kind: z.enum(['implausible', 'scatter', 'few']),
        parameter: parameter.optional(),
        sentence: z.string(),
      }),
    ),
  })
  .describe('What the readings of a coupon say of a printer');
