import { z } from 'zod';

// JSON knows no infinity. Where a number may have none (degrees of freedom, a one-sided window), null stands for it.
const numberOrNone = z.number().nullable();
const point = z.tuple([z.number(), z.number(), z.number()]);
const share = z.strictObject({ id: z.string(), label: z.string(), share: z.number() });
const chance = z.number().min(0).max(1);
const sha256 = z.string().regex(/^[0-9a-f]{64}$/);

const file = z
  .strictObject({
    path: z.string().describe('As written, from the folder the command ran in'),
    kind: z.enum(['stl', '3mf', 'drawing', 'report']),
    sha256: sha256.describe('Of its bytes, hex'),
    triangles: z.number().int().positive().optional().describe('Of a model'),
    part: z.string().optional().describe('Id of the part, in a set, where the file is about one alone'),
  })
  .describe('A file that was written');

const contributor = z.strictObject({
  id: z.string(),
  label: z.string(),
  u: z.number(),
  distribution: z.enum(['normal', 'rectangular', 'student']),
  dof: numberOrNone.describe('Degrees of freedom; null for infinitely many'),
  deviation: z
    .number()
    .optional()
    .describe('Standard deviation, where it is known better than so few degrees of freedom tell'),
});

const remark = z.strictObject({
  kind: z.enum(['outlier', 'unit-slip', 'implausible', 'spread', 'nominal']),
  index: z.number().int().optional(),
  value: z.number(),
  expected: z.string(),
  sentence: z.string(),
});

const dimension = z
  .strictObject({
    id: z.string(),
    name: z.string(),
    value: z.number(),
    u: z.number().describe('Combined standard uncertainty, in the unit'),
    dof: numberOrNone.describe('Effective degrees of freedom; null for infinitely many'),
    unit: z.enum(['mm', 'deg', 'degC', 'N', 'g', '1']),
    n: z.number().int().describe('Number of readings'),
    k: z.number().describe('Coverage factor for 95 %'),
    U: z.number().describe('Expanded uncertainty k u'),
    contributors: z.array(contributor),
    remarks: z.array(remark),
  })
  .describe('A dimension that knows how well it is known (JCGM 100)');

const reportedInterface = z
  .strictObject({
    id: z.string(),
    name: z.string(),
    kind: z.enum(['bore', 'slot', 'post', 'rib', 'step']),
    at: point.describe('Middle of the feature, coordinates of the STL, mm'),
    axis: point.describe('Unit vector along the feature'),
    across: point.describe('Unit vector in which the size is measured'),
    length: z.number(),
    host: z.number().describe('Size of the machine there, mm'),
    drawn: z.number().describe('Size in the STL, mm'),
    predicted: z.number().describe('Size expected off the printer, mm'),
    clearance: z.number().describe('Expected clearance, mm; positive is loose'),
    u: z.number().describe('Standard uncertainty of the clearance, mm'),
    window: z
      .tuple([numberOrNone, numberOrNone])
      .describe('Least and greatest clearance that feel right, mm; null: no such end'),
    chance,
    shares: z.array(share),
  })
  .describe('Where part and machine meet');

const finding = z
  .strictObject({
    id: z.string(),
    title: z.string(),
    verdict: z.enum(['holds', 'caution', 'fails']),
    value: numberOrNone,
    limit: numberOrNone,
    unit: z.string(),
    margin: numberOrNone.describe('Distance to the limit, positive on the good side'),
    because: z.string(),
    source: z.string(),
    remedy: z.string(),
    at: point.nullable().describe('Where on the part, coordinates of the STL, mm'),
    details: z.record(z.string(), z.union([numberOrNone, z.string()])).optional(),
  })
  .describe('The verdict of one check');

const print = z.strictObject({
  lay: z.string().describe('How the part lies on the bed'),
  volume: z.number().describe('mm^3'),
  mass: z.number().describe('g, printed solid'),
  layers: z.number().int(),
  layer: z.number().describe('mm'),
  extents: point.describe('On the bed, mm'),
  triangles: z.number().int(),
});

/** What `fettle make --json` and `fettle check --json` print, and what is written beside the STL.
 *  Lengths in mm. Later versions may add fields, never change or drop one without a new version of the job format. */
export const resultSchema = z
  .strictObject({
    job: z.strictObject({
      family: z.string(),
      title: z.string(),
      quantity: z.number().int().positive(),
      material: z.string(),
      printer: z.string(),
      calibrated: z.string().nullable().describe('Date of the calibration; null without one'),
      hash: sha256.describe('Of the content of the job, hex'),
    }),
    files: z.array(file),
    dimensions: z.record(z.string(), dimension),
    interfaces: z.array(reportedInterface),
    chance: chance
      .nullable()
      .describe('Chance that the part fits the first time; null when nothing was measured that it meets'),
    shares: z.array(share).describe('Shares of the doubt about the whole part, largest first'),
    advice: z
      .strictObject({
        id: z.string(),
        sentence: z.string(),
        minutes: z.number(),
        from: chance,
        to: chance,
      })
      .nullable()
      .describe('The cheapest step that raises the chance'),
    findings: z.array(finding),
    assembly: z
      .strictObject({ id: z.string(), name: z.string(), steps: z.array(z.string()) })
      .nullable()
      .describe('The gentlest order of putting the part in'),
    changes: z
      .array(
        z.strictObject({
          axis: point.describe('Unit vector, frame of the model'),
          by: z.number().describe('Longer by, mm; below 0 shorter'),
          spans: z.array(z.strictObject({ from: z.number(), to: z.number() })),
          exact: z.boolean().describe('Leaves no trace'),
          mismatchArea: z.number().describe('By how much sections differ that came to meet, mm^2'),
          because: z.string(),
        }),
      )
      .optional()
      .describe('What was done to a model that was there before'),
    changed: z
      .array(
        z.strictObject({
          id: z.string().describe('Interface'),
          name: z.string(),
          before: z.number().describe('Drawn without the trials, mm'),
          after: z.number().describe('Drawn with them, mm'),
          because: z.string(),
        }),
      )
      .optional()
      .describe('What trials of earlier prints changed about the sizes that are drawn'),
    scaling: z
      .strictObject({
        axis: point,
        factor: z.number(),
        features: z.array(
          z.strictObject({
            id: z.string(),
            now: z.number().describe('Diameter in the model, mm'),
            scaled: z.number().describe('Diameter it would have, mm'),
            clearance: numberOrNone.describe('Clearance that would leave; null where nothing was measured'),
            window: z.tuple([numberOrNone, numberOrNone]).nullable(),
          }),
        ),
      })
      .optional()
      .describe('What uniform scaling to the same length would have done, of a refit'),
    cautions: z.array(z.string()).describe('Where the work can hurt someone or the machine'),
    print: print.describe('Of all parts together'),
    parts: z
      .array(z.strictObject({ id: z.string(), name: z.string(), print }))
      .describe(
        'The parts; ids of interfaces and findings start with the id of theirs, unless it is the only one',
      ),
  })
  .refine(
    ({ chance, interfaces }) => (chance === null) === (interfaces.length === 0),
    'a chance wherever part and machine meet',
  )
  .describe('Fettle result');

/** A result as printed and written. */
export type ResultFile = z.output<typeof resultSchema>;
