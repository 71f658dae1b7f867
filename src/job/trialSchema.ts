import { z } from 'zod';
import { printerProfileSchema } from '../printer/profile.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { callipersSchema } from './callipersSchema.ts';

const id = z.string().max(100);
const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256, 64 hex digits');
const end = z.number().nullable();
const text = z.union([z.string().max(200), z.number()]);

/** What one interface was drawn as, and what was expected of it then. */
const size = z.strictObject({
  drawn: z.number().positive().max(10_000).describe('Size in the STL, mm'),
  predicted: z.number().describe('Size expected off the printer then, mm'),
  clearance: z.number().describe('Clearance expected then, mm'),
  window: z.tuple([end, end]).describe('Clearance that should feel right, mm; null: no end'),
  aim: z.number().describe('Clearance aimed for, mm'),
  doubt: z
    .strictObject({
      printer: z.number().min(0).describe('Of the printed size for all that the printer profile leaves open'),
      machine: z.number().min(0).describe('Of the size of the machine'),
      spread: z.number().positive().describe('From print to print'),
    })
    .describe('Standard uncertainties of the clearance then, by cause, mm'),
  ladder: sha256
    .optional()
    .describe('Rungs of the ladder whose verdict the clearance rested on; absent: on none'),
});

/** One print of the part and what came of it. Fettle writes it; readings and feelings are the person's. Records are only
 *  ever added to: what was drawn stays as it was. */
export const trialSchema = z
  .strictObject({
    date: z.iso.date().describe('When it was first spoken of, YYYY-MM-DD'),
    made: sha256.describe('Hash of the job it was made from, as in the STL and the result'),
    printer: z.string().max(80).describe('Printer it was drawn for'),
    material: z.string().max(100),
    layer: z.number().describe('Layer height, mm'),
    sizes: z.record(id, size).describe('By interface'),
    inspected: z
      .strictObject({
        callipers: callipersSchema.optional().describe("Absent: the job's own"),
        readings: z.record(id, z.array(text).max(100)).describe('Of the print, as typed, by interface'),
        after: z
          .record(id, z.array(text).max(100))
          .optional()
          .describe('Of the print once it was filed or drilled, as typed; these say nothing of the printer'),
      })
      .optional()
      .describe('What callipers read of the print before it went near the machine'),
    reworked: z
      .array(id)
      .max(200)
      .optional()
      .describe('Interfaces that were filed or drilled after they were read'),
    felt: z
      .record(id, z.enum(['tight', 'right', 'loose']))
      .optional()
      .describe('How each interface felt on the machine'),
    broken: z.array(z.string().max(200)).max(50).optional().describe('What broke, in the words of a bench'),
    note: z.string().max(2000).optional(),
    learnt: z
      .strictObject({
        before: printerProfileSchema.describe('The profile as it was before'),
        after: sha256.describe('Of the profile with what it learnt'),
      })
      .optional()
      .describe('That the printer profile has learnt from this print, so that it never does so twice'),
  })
  .describe('One print of the part, tried');

/** A trial as a job remembers it; interfaces by their id in the result. */
export type TrialRecord = Omit<z.output<typeof trialSchema>, 'learnt'> & {
  readonly learnt?: { readonly before: PrinterProfile; readonly after: string } | undefined;
};
export type FeltWord = 'tight' | 'right' | 'loose';
