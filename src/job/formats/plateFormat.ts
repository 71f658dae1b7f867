import { z } from 'zod';

const sha256 = z.string().regex(/^[0-9a-f]{64}$/);
const corner = z.tuple([z.number(), z.number()]);

/** What `fettle plate --json` prints, and what is written beside the plate. Lengths in mm, from the front left corner of the bed.
 *  Later versions may add fields. */
export const plateSchema = z
  .strictObject({
    hash: sha256.describe('Of the jobs and the spacing, hex'),
    files: z.array(
      z.strictObject({
        path: z.string().describe('As written, from the folder the command ran in'),
        kind: z.enum(['3mf', 'stl', 'view']),
        sha256: sha256.describe('Of its bytes, hex'),
        triangles: z.number().int().positive().optional().describe('All copies together'),
      }),
    ),
    jobs: z.array(
      z.strictObject({
        file: z.string().describe('As given'),
        title: z.string(),
        family: z.string(),
        hash: sha256.describe('Of the content of the job, hex'),
        quantity: z.number().int().positive(),
        chance: z.number().min(0).max(1).nullable().describe('That its parts fit the first time'),
        fails: z.number().int().describe('Findings that fail'),
        cautions: z.number().int(),
      }),
    ),
    printer: z.string(),
    material: z.string(),
    bed: z.strictObject({ x: z.number(), y: z.number(), z: z.number() }),
    spacing: z.number().describe('Asked for, between parts and to the edge of the bed'),
    gap: z
      .number()
      .nullable()
      .describe('Least distance between two parts as laid; null where none are near one another'),
    tallestInside: z.boolean().describe('False where room was too scarce for it'),
    used: z.strictObject({ from: corner, to: corner, height: z.number() }).describe('Box around all parts'),
    placements: z.array(
      z.strictObject({
        job: z.number().int().min(0).describe('Place in the list of jobs, from 0'),
        part: z.string().describe('Id of the part in its job; empty when it makes one'),
        copy: z.number().int().positive(),
        x: z.number().describe('Left side of its box'),
        y: z.number().describe('Front side of its box'),
        turn: z
          .union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)])
          .describe('About z, degrees, counter-clockwise from above, from the STL of the job'),
      }),
    ),
    print: z.strictObject({
      mass: z.number().positive().describe('g, printed solid'),
      minutes: z.number().positive().describe('Roughly, all together'),
      method: z.string().describe('How the minutes were reckoned'),
    }),
  })
  .describe('Fettle plate');

/** A plate as printed and written. */
export type PlateObject = z.output<typeof plateSchema>;
