import { z } from 'zod';

const known = { value: z.number().positive(), u: z.number().min(0) };
const range = z.strictObject({ lo: z.number(), hi: z.number() });
const chance = z.number().min(0).max(1);

const match = z
  .strictObject({
    designation: z.string(),
    system: z.string(),
    series: z.string(),
    nominal: z.number(),
    pitch: z.number(),
    angle: z.number().describe('Between the flanks, degrees'),
    outside: z
      .strictObject({ usual: range, any: range })
      .describe('Outside diameter that its standard permits'),
    likely: chance,
    agreement: chance.describe('That such a screw reads as far off'),
    diameterOff: z.number().describe('Beyond the permitted range; 0 within'),
    pitchOff: z.number().nullable().describe('Pitch read less its own; null where it was not read'),
    source: z.string(),
  })
  .describe('A thread held against the readings');

const between = z.tuple([z.string(), z.string()]);
const two = z.tuple([z.number(), z.number()]);

/** What `fettle screw --json` prints. Lengths in mm. Later versions may add fields. */
export const screwSchema = z
  .strictObject({
    unit: z.literal('mm'),
    diameter: z.strictObject(known),
    pitch: z
      .strictObject({ ...known, threads: z.number().int().positive() })
      .nullable()
      .describe('As read over so many threads; null where it was not'),
    candidates: z.array(match).describe('That agree, the likeliest first'),
    none: chance.describe('That it is none of the known ones, or misread'),
    tests: z
      .array(
        z.union([
          z.strictObject({
            ...{ between, by: z.literal('pitch'), threads: z.number().int().positive() },
            expected: two.describe('Length over so many threads'),
          }),
          z.strictObject({ between, by: z.literal('diameter'), expected: z.tuple([range, range]) }),
          z.strictObject({ between, by: z.literal('angle'), expected: two }),
          z.strictObject({ between, by: z.literal('tip'), tapping: z.string() }),
          z.strictObject({ between, by: z.literal('nut') }),
        ]),
      )
      .describe('What tells the likeliest from the next ones'),
    ruledOut: z.array(match).describe('That do not agree, the nearest first'),
    clearanceHoles: z
      .strictObject({
        designation: z.string(),
        fine: z.number(),
        medium: z.number(),
        coarse: z.number(),
        source: z.string(),
      })
      .nullable()
      .describe('Holes that the likeliest passes'),
  })
  .describe('What screw it is');
