import { z } from 'zod';

const point = z.tuple([z.number(), z.number(), z.number()]);

/** What `fettle coupon --json` prints. Lengths in mm, coordinates of the written STL. Later versions may add fields. */
export const couponSchema = z
  .strictObject({
    printer: z.string(),
    files: z.array(
      z.strictObject({
        path: z.string().describe('As written, from the folder the command ran in'),
        kind: z.enum(['stl', 'png', 'html']),
        sha256: z
          .string()
          .regex(/^[0-9a-f]{64}$/)
          .describe('Of its bytes, hex'),
        triangles: z.number().int().positive().optional(),
      }),
    ),
    features: z.array(
      z.strictObject({
        id: z.string(),
        number: z.number().int().positive().describe('Stands on the print beside the feature'),
        kind: z.enum(['post', 'bore', 'slot', 'rib', 'step']),
        axis: z
          .union([z.enum(['x', 'y', 'z']), point])
          .describe('Of a bore its axis; otherwise the direction in which it is measured'),
        nominal: z.number().positive().describe('Size in the STL'),
        at: point.describe('Middle of the feature'),
        callout: z.tuple([point, point]).describe('Where the jaws touch'),
        name: z.string(),
        jaw: z.enum(['outside', 'inside', 'depth']),
        round: z.boolean().describe('Inside jaws in a round bore, whose lands read small'),
        from: z.number().describe('Smallest plausible reading'),
        to: z.number().describe('Largest plausible reading'),
        times: z.number().int().positive().describe('Readings asked for'),
        tip: z.string(),
      }),
    ),
    print: z.strictObject({
      volume: z.number().positive().describe('mm^3'),
      mass: z.number().positive().describe('g, printed solid'),
      minutes: z.number().positive().describe('Roughly'),
      method: z.string().describe('How the minutes were reckoned'),
    }),
  })
  .describe('Fettle coupon');

/** A coupon as printed for a program. */
export type CouponObject = z.output<typeof couponSchema>;
