import { z } from 'zod';
import { point } from './common.ts';

const axis = z.union([z.enum(['x', 'y', 'z']), point.describe('Unit vector')]);
const round = {
  id: z.string(),
  axis,
  at: point,
  inscribed: z.number().positive().describe('Diameter of the circle inside its facets'),
  circumscribed: z.number().positive().describe('Diameter of the circle through its corners'),
};

/** What `fettle donor --json` prints. Lengths in mm after the guess of the unit. Later versions may add fields. */
export const donorSchema = z
  .strictObject({
    file: z.string(),
    format: z.string(),
    units: z.strictObject({
      guess: z.enum(['micron', 'mm', 'cm', 'inch', 'foot', 'metre']),
      confidence: z.number().min(0).max(1),
      because: z.string(),
      from: z.enum(['person', 'file', 'guess']),
    }),
    extents: point,
    triangles: z.number().int().positive(),
    sound: z.strictObject({
      manifold: z.boolean(),
      bodies: z.number().int(),
      genus: z.number().int(),
      volume: z.number().describe('mm^3'),
    }),
    repairs: z.array(z.strictObject({ kind: z.string(), count: z.number().int(), sentence: z.string() })),
    remarks: z.array(z.string()),
    spans: z.array(
      z.strictObject({
        axis,
        from: z.number(),
        to: z.number(),
        length: z.number().positive(),
        available: z.number().min(0).describe('How much can be taken out'),
        area: z.number().min(0).describe('mm^2'),
      }),
    ),
    bores: z.array(z.strictObject({ ...round, depth: z.number(), through: z.boolean() })),
    posts: z.array(z.strictObject({ ...round, length: z.number() })),
    pockets: z.array(
      z.strictObject({
        ...{ id: z.string(), kind: z.string(), axis, at: point, width: z.number(), length: z.number() },
        ...{ depth: z.number(), through: z.boolean() },
      }),
    ),
  })
  .describe('What a model of a similar part is');
