import { z } from 'zod';
import { PARAMETERS } from '../../printer/types.ts';
import { aboutJob, chance, sha256, window } from './common.ts';

const verdict = z.enum(['pass', 'close', 'rework', 'reprint']);
const known = z.strictObject({ value: z.number(), u: z.number().min(0) });

const size = z
  .strictObject({
    id: z.string(),
    name: z.string(),
    kind: z.enum(['bore', 'slot', 'post', 'rib', 'step']),
    verdict,
    print: z
      .strictObject({ ...known.shape, n: z.number().int().positive() })
      .describe('As read, mm, with its standard uncertainty and the number of readings'),
    expected: z.number().describe('Size expected off the printer when it was drawn, mm'),
    deviation: z
      .strictObject({ ...known.shape, z: z.number().describe('In standard uncertainties') })
      .describe('Print less expectation, mm'),
    machine: z.number().describe('Size of the machine there, mm'),
    clearance: known.describe('Of print and machine as read, mm; above 0 is loose'),
    window,
    chance: chance.describe('That the clearance lies in its window'),
    risk: z.strictObject({ below: chance, above: chance }).describe('That it lies on either side'),
    shares: z.array(z.strictObject({ id: z.string(), label: z.string(), share: z.number() })),
    rework: z
      .strictObject({
        tool: z.enum(['flat file', 'needle file', 'abrasive strip', 'drill']),
        off: z.number().describe('To come off in all, mm'),
        aSide: z.number().describe('Off each face, mm'),
        faces: z.union([z.literal(1), z.literal(2)]),
        drill: z.number().optional().describe('Diameter of the drill, mm'),
      })
      .nullable()
      .describe('What takes plastic off until it fits'),
    noRework: z
      .enum([
        ...(['too-small', 'too-much', 'no-drill', 'slot-too-narrow'] as const),
        ...(['round-ends', 'centres', 'window-too-narrow'] as const),
      ])
      .nullable()
      .describe('Why there is no such thing'),
    stale: z.boolean().describe('Filed or drilled, and not read since'),
    cause: z.enum(['as-expected', 'scatter', 'drift', 'reading', 'alone', 'machine']),
    todo: z.string(),
    because: z.string(),
    remarks: z.array(
      z.strictObject({
        kind: z.enum(['outlier', 'unit-slip', 'implausible', 'spread', 'nominal']),
        index: z.number().int().optional(),
        value: z.number(),
        expected: z.string(),
        sentence: z.string(),
      }),
    ),
  })
  .describe('One size of the print, judged');

/** What `fettle inspect --json` prints. Later versions may add fields. */
export const inspectionSchema = z
  .strictObject({
    job: aboutJob,
    trial: z
      .strictObject({
        number: z.number().int().positive(),
        date: z.string(),
        made: sha256.describe('Hash of the job it was made from'),
        printer: z.string(),
        material: z.string(),
        layer: z.number().describe('mm'),
      })
      .describe('Which print of the job'),
    verdict: verdict.nullable().describe('The gravest; null while nothing is read'),
    interfaces: z.array(size),
    unread: z.array(z.strictObject({ id: z.string(), name: z.string() })),
    drift: z
      .strictObject({
        parameter: z.enum([...PARAMETERS, 'zero']),
        was: z.number(),
        now: z.number(),
        u: z.number().min(0),
        explains: z.array(z.string()),
        sentence: z.string(),
      })
      .nullable()
      .describe('One thing about printer or callipers that explains several sizes at once'),
    cautions: z.array(z.string()),
    rules: z
      .strictObject({
        decision: z.strictObject({ pass: chance, readAgain: chance, source: z.string() }),
        rework: z.strictObject({
          mostOfLine: z.number(),
          needleFile: z.number(),
          drillStep: z.number(),
          drills: z.strictObject({ from: z.number(), to: z.number() }),
          fileReach: z.number(),
          source: z.string(),
        }),
      })
      .describe('By which the print was judged; lengths in mm'),
    next: z.array(z.string()).describe('What to type next'),
  })
  .describe('Fettle inspection of a print');
