import { z } from 'zod';
import type { FeltRecord, FeltVerdict } from '../fit/feltRecord.ts';
import { printerProfileSchema } from '../printer/profile.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { isoFitPattern } from '../standards/iso286/isoFit.ts';
import { callipersSchema } from './callipersSchema.ts';
import { trialSchema } from './trialSchema.ts';

const text = z.union([z.string().max(200), z.number()]);
const fit = z.union([
  z.enum(['press', 'snug', 'sliding', 'free']),
  // Aborting, so that the other kinds of fit are named beside it.
  z.string().regex(isoFitPattern, { error: 'an ISO 286 code such as H8/f7', abort: true }),
  z.tuple([z.number(), z.number()]),
]);

const numbers = (most: number) => z.array(z.number().int().min(1).max(15)).max(most);
const lengths = (what: string) =>
  z.record(z.string().max(100), z.number()).describe(`${what}, by interface, mm`);
const end = z.number().nullable();

/** A ladder that was printed, and what was felt. Fettle writes it; `felt` is the person's word. */
const ladder = z
  .strictObject({
    date: z.iso.date().describe('When the strip was drawn, YYYY-MM-DD'),
    printer: z.string().max(80).describe('Printer it was drawn for'),
    material: z.string().max(100),
    layer: z.number().describe('Layer height, mm'),
    rungs: z
      .array(
        z.strictObject({ drawn: lengths('Size as drawn'), clearance: lengths('Clearance expected then') }),
      )
      .min(3)
      .max(15)
      .describe('Number 1 first, the tightest'),
    doubt: z.strictObject({
      u: z.number().min(0).describe('Standard uncertainty that all rungs share, mm'),
      spread: z.number().positive().describe('Standard deviation from size to size, mm'),
    }),
    window: z
      .record(z.string().max(100), z.tuple([end, end]))
      .describe('Clearance that should feel right, by interface, mm; null: no end'),
    aim: lengths('Clearance aimed for'),
    felt: z
      .strictObject({
        tight: numbers(15).describe('Numbers that were too tight'),
        right: numbers(15).describe('Numbers that felt right'),
        loose: numbers(15).describe('Numbers that were too loose'),
        best: z.number().int().min(1).max(15).optional().describe('The number that felt best'),
      })
      .optional()
      .describe('What the person said of the rungs'),
    earlier: z
      .boolean()
      .optional()
      .describe('The clearances expected rest on the verdict on an earlier ladder'),
    learnt: z
      .strictObject({
        before: printerProfileSchema.describe('The profile as it was before'),
        after: z.string().max(64).describe('SHA-256 of the profile with what it learnt'),
      })
      .optional()
      .describe(
        'That the printer profile has learnt from this verdict, so that it never does so twice, from this ladder or the next',
      ),
  })
  .refine(
    isWhole,
    'a ladder as Fettle wrote it: the same interfaces in every rung, window and aim, and verdicts about its rungs',
  );

/** What `feltShift` may rely on: every size of every rung is there, and every number named is a rung. */
function isWhole({ rungs, window, aim, felt }: FeltRecord): boolean {
  const names = (map: object) => Object.keys(map).sort().join(' ');
  const ids = names(window);
  const told = felt === undefined ? [] : [...felt.tight, ...felt.right, ...felt.loose, felt.best ?? 1];
  return (
    ids !== '' &&
    [aim, ...rungs.flatMap(({ drawn, clearance }) => [drawn, clearance])].every(
      (map) => names(map) === ids,
    ) &&
    told.every((number) => number <= rungs.length)
  );
}

const axis = z.union([z.enum(['x', 'y', 'z']), z.tuple([z.number(), z.number(), z.number()])]);

const way = z.number().int().min(1).max(99);

/** The model of a similar part that a job refits, family `donor`. */
const donorSchema = z
  .strictObject({
    file: z.string().min(1).max(1000).describe('Name of the model beside the job, STL or 3MF'),
    units: z
      .enum(['micron', 'mm', 'cm', 'inch', 'foot', 'metre'])
      .optional()
      .describe('What its numbers are, where the guess is wrong'),
    changes: z
      .array(
        z.strictObject({
          axis: axis.describe('Along which it becomes longer or shorter'),
          by: text.optional().describe('By this much; below 0 shorter'),
          to: text.optional().describe('To this length over all'),
          take: way.optional().describe('Which of the ways offered, from 1'),
        }),
      )
      .max(20)
      .default([]),
    take: z
      .strictObject({ lengthX: way.optional(), lengthY: way.optional(), lengthZ: way.optional() })
      .optional()
      .describe('Which of the ways offered, for lengths that readings ask for'),
    lopsided: z.boolean().default(false).describe('Whether a symmetric model may lose its symmetry'),
  })
  .describe('A model of a similar part');

/** The job file, version 1. Readings stay as typed, for ever. */
export const jobSchema = z
  .strictObject({
    fettle: z.literal(1).describe('Version of the job format'),
    family: z.string().max(100).describe('Which kind of part'),
    donor: donorSchema.optional(),
    title: z.string().max(200).optional().describe('What this job is called'),
    quantity: z.number().int().min(1).max(1000).default(1).describe('How many to make'),
    unit: z.enum(['mm', 'in']).default('mm').describe('Unit of numbers typed without one'),
    callipers: callipersSchema.optional(),
    readings: z
      .record(z.string().max(100), z.array(text).max(100))
      .default({})
      .describe('Calliper readings as typed, by reading'),
    choices: z.record(z.string().max(100), z.string().max(100)).default({}),
    texts: z
      .record(z.string().max(100), z.string().max(200))
      .optional()
      .describe('Lines of text the part carries'),
    sizes: z
      .record(z.string().max(100), text)
      .default({})
      .describe('Sizes set by the maker; lengths or ratios'),
    fits: z
      .record(z.string().max(100), fit)
      .default({})
      .describe(
        'Fit class, ISO 286 code or clearance window in mm, by interface, where the normal one is not wanted',
      ),
    material: z.string().max(100).default('PLA'),
    printer: z
      .union([z.string().max(1000), printerProfileSchema])
      .optional()
      .describe('Printer profile, or the name of its file beside the job; absent: an uncalibrated printer'),
    ladders: z
      .record(z.string().max(100), ladder)
      .optional()
      .describe('Ladders printed for this job and what was felt, by group of interfaces'),
    trials: z
      .array(trialSchema)
      .max(200)
      .optional()
      .describe('Prints that were measured or tried, the first one first'),
    surroundings: z
      .strictObject({ temperature: text.describe('Warmest the part gets, in degrees Celsius') })
      .optional(),
    author: z.string().trim().min(1).max(200).optional().describe('Who passes the part on'),
    licence: z
      .string()
      .trim()
      .max(200)
      .optional()
      .describe('Terms on which the files may be used, an SPDX expression such as CC-BY-4.0'),
    note: z.string().max(5000).optional(),
  })
  .describe('Fettle job');

/** A job as written in its file. */
export type JobFile = z.input<typeof jobSchema>;
/** A ladder as a job remembers it. */
export type LadderRecord = Omit<z.output<typeof ladder>, 'felt' | 'learnt'> & {
  readonly felt?: FeltVerdict | undefined;
  readonly learnt?: { readonly before: PrinterProfile; readonly after: string } | undefined;
};
/** A job with everything that has a normal value filled in. */
export type Job = z.output<typeof jobSchema>;
