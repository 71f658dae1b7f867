import { z } from 'zod';
import { chance, changedFiles, lengths, lesson, nextSize, point, window, writtenFile } from './common.ts';

const numbers = z.array(z.number().int().min(1));
const length = z.number().positive();

/** What `fettle ladder --json` prints of a strip it drew. Lengths in mm, coordinates of the STL. Later versions may add
 *  fields. */
export const ladderSchema = z
  .strictObject({
    job: z.strictObject({
      title: z.string(),
      family: z.string(),
      printer: z.string(),
      material: z.string(),
    }),
    group: z.string().describe('Interfaces that step together, by what stands before the point'),
    step: length.describe('Clearance from one number to the next'),
    stepped: z.array(z.string()).describe('Interfaces that step; others are the same on every number'),
    free: z.boolean().describe('False where numbers are to be cut off the strip before they are tried'),
    rungs: z
      .array(
        z.strictObject({
          number: z.number().int().positive().describe('As it stands on the strip; 1 is the tightest'),
          clearance: lengths('Expected'),
          drawn: lengths('Size in the STL'),
          places: z.record(z.string(), z.strictObject({ at: point, axis: point, across: point })),
        }),
      )
      .min(3),
    doubt: z.strictObject({
      u: z.number().min(0).describe('Standard uncertainty that all numbers share'),
      spread: length.describe('Standard deviation from size to size'),
    }),
    window: z.record(z.string(), window),
    files: z.array(writtenFile('stl', 'png', 'job')),
    print: z.strictObject({
      lay: z.string(),
      volume: z.number().positive().describe('mm^3'),
      mass: z.number().positive().describe('g, printed solid'),
      minutes: z.number().positive().describe('Roughly'),
      layers: z.number().int().positive(),
      extents: point.describe('On the bed'),
    }),
  })
  .describe('Fettle ladder');

/** What `fettle ladder --felt --json` and its like print of a verdict. Later versions may add fields. */
export const verdictSchema = z
  .strictObject({
    group: z.string(),
    felt: z.strictObject({
      ...{ tight: numbers, right: numbers, loose: numbers },
      best: z.number().int().min(1).optional(),
    }),
    shift: z
      .strictObject({
        value: z.number(),
        u: z.number().min(0),
        before: z.strictObject({ value: z.number(), u: z.number().min(0) }),
      })
      .describe('By how much there is more room than was expected, with its standard uncertainty, mm'),
    remarks: z.array(z.string()).describe('What is doubtful about it'),
    drawn: z.array(nextSize).describe('Sizes before and now, mm'),
    chance: z.strictObject({ before: chance, after: chance }).describe('That the part fits the first time'),
    printer: lesson,
    files: changedFiles,
  })
  .describe('Verdict on a Fettle ladder');
