import fc from 'fast-check';
import { askedReadings, type Family } from '../../../src/family/family.ts';
import type { Prepared } from '../../../src/job/prepare.ts';
import { Refused } from '../../../src/job/problem.ts';
import type { PrinterProfile } from '../../../src/printer/types.ts';
import { materialNames } from '../../../src/standards/materials.ts';
import { anyFit } from './anyFit.ts';
import { anyPrinter } from './anyPrinter.ts';
import { readingText } from './readingText.ts';
import { between, pick, share } from './share.ts';

/** A job open to any change. */
export interface AnyJob {
  [field: string]: unknown;
  family: string;
  unit: 'mm' | 'in';
  readings: Record<string, (string | number)[]>;
  choices: Record<string, string>;
  sizes: Record<string, string | number>;
  texts: Record<string, string>;
  fits: Record<string, unknown>;
}

/** Reads a job as from its file. Throws `Refused`. */
export type ReadsJob = (job: unknown) => Prepared;

/** Something else tried: readings or sizes, by their place in the list, somewhere else in their declared range. */
const move = fc.record({
  which: fc.array(fc.nat(), { minLength: 1, maxLength: 3 }),
  where: share,
  far: fc.constantFrom(0.15, 0.5, 1, 1),
  style: share,
  // Hundredths; now and then a slip of millimetres, within the range and so for nobody to refuse.
  scatter: fc.array(
    fc.oneof(
      { weight: 9, arbitrary: fc.integer({ min: -4, max: 4 }) },
      { weight: 1, arbitrary: fc.integer({ min: -900, max: 900 }) },
    ),
    { maxLength: 4 },
  ),
  unset: fc.nat({ max: 4 }),
});
/** All lengths at once larger or smaller, so that what must agree goes together. */
const swell = fc.record({ factor: fc.constantFrom(0.4, 0.6, 0.8, 1.25, 1.6, 2.5) });

const word = fc.constantFrom(
  '',
  'A',
  'AUX',
  'LINE 2',
  'gy(8)',
  '0.5 A T',
  '~|{}',
  '<b>&"\'',
  'W'.repeat(8),
  ' x ',
  '%s',
);
const title = fc.constantFrom(
  'Clip',
  'Füße, hinten',
  'a/b:c*?',
  '"quoted" <b>&amp;</b>',
  'x'.repeat(200),
  '部品',
  '-',
  '../x',
);
const calliperOf = fc.record(
  {
    name: fc.constantFrom('long pair', 'pair 2'),
    scale: fc.constantFrom('digital', 'dial', 'vernier'),
    resolution: fc.constantFrom('0.01 mm', '0.02 mm', '0.05mm', '0.0005 in', 0.01, '1 mm', '0.001 mm'),
    zero: fc.constantFrom('0', '-0.02 mm', '0.01 mm', 0.05, '1.5 mm'),
    landWidth: fc.constantFrom('0', '0.3 mm', 0.08, '3 mm'),
    permissibleError: fc.constantFrom('0', '0.02 mm', '0.05 mm', '1 mm'),
    repeatability: fc.constantFrom('0.001 mm', '0.02 mm', '0.2 mm', '1 mm'),
  },
  { requiredKeys: [] },
);

/** Jobs of a family over its whole declared range, nearly all of which can be read: from typical readings they wander, and
 *  keep what the family's rules leave standing. `known`: printers that somebody has. */
export function anyJob(
  family: Family,
  read: ReadsJob,
  base: object,
  known: readonly PrinterProfile[],
): fc.Arbitrary<AnyJob> {
  const choices = Object.fromEntries(
    Object.entries(family.choices).map(([id, { options, normal }]) => [
      id,
      fc.oneof(
        { weight: 1, arbitrary: fc.constant(normal) },
        { weight: 2, arbitrary: fc.constantFrom(...options) },
      ),
    ]),
  );
  return fc
    .record({
      choices: fc.record(choices),
      unit: fc.constantFrom<'mm' | 'in'>('mm', 'mm', 'mm', 'in'),
      callipers: calliperOf,
      optional: fc.array(fc.boolean(), { minLength: 5, maxLength: 5 }),
      moves: fc.array(fc.oneof({ weight: 8, arbitrary: move }, { weight: 1, arbitrary: swell }), {
        minLength: 4,
        maxLength: 40,
      }),
      printer: fc.oneof(fc.constant(undefined), fc.constantFrom(...known), anyPrinter(known)),
      material: fc.constantFrom(...materialNames),
      temperature: fc.constantFrom(undefined, undefined, '-20', 40, '40 °C', '140 °C', 150),
      fits: fc.array(fc.tuple(fc.nat(), anyFit), { maxLength: 3 }),
      texts: fc.record(Object.fromEntries(Object.keys(family.texts).map((id) => [id, word]))),
      quantity: fc.constantFrom(1, 1, 2, 3, 12, 1000),
      title: fc.option(title, { nil: undefined }),
    })
    .map((drawn) => {
      const start: AnyJob = {
        ...{ fettle: 1, family: family.id, ...base, quantity: drawn.quantity, unit: drawn.unit },
        ...(drawn.title !== undefined && { title: drawn.title }),
        callipers: drawn.callipers,
        readings: typicalReadings(family, drawn.choices, drawn.unit, drawn.optional),
        ...{ choices: drawn.choices, sizes: {}, texts: {}, fits: {}, material: drawn.material },
        ...(drawn.printer !== undefined && { printer: drawn.printer }),
        ...(drawn.temperature !== undefined && { surroundings: { temperature: drawn.temperature } }),
      };
      let now = { job: start, problems: problemsOf(read, start) };
      const settle = (next: AnyJob) => {
        const problems = problemsOf(read, next);
        if (problems <= now.problems) now = { job: next, problems };
      };
      settle({ ...start, texts: drawn.texts });
      for (const each of drawn.moves)
        settle('factor' in each ? swollen(family, now.job, each.factor) : moved(family, now.job, each));
      for (const [k, fit] of drawn.fits) {
        const id = interfaceOf(read, now.job, k);
        if (id !== undefined) settle({ ...now.job, fits: { ...now.job.fits, [id]: fit } });
      }
      return now.job;
    });
}

function problemsOf(read: ReadsJob, job: AnyJob): number {
  try {
    read(job);
    return 0;
  } catch (error) {
    if (error instanceof Refused) return error.problems.length;
    // What breaks here breaks again when the job is made, where it is told of.
    return 0;
  }
}

/** One of the places where part and machine meet; none where the job is refused. */
function interfaceOf(read: ReadsJob, job: AnyJob, k: number): string | undefined {
  try {
    const { family, values } = read(job);
    const ids = family.interfaces(values, {}).map(({ id }) => id);
    return ids[k % ids.length];
  } catch {
    return undefined;
  }
}

const typicalReadings = (
  family: Family,
  choices: Record<string, string>,
  unit: 'mm' | 'in',
  optional: readonly boolean[],
): AnyJob['readings'] =>
  Object.fromEntries(
    askedReadings(family, choices).flatMap(([id, spec], k) =>
      (spec.optional || spec.otherwise) && optional[k % optional.length]
        ? []
        : [[id, [readingText(spec.typical, spec, unit, 0)]]],
    ),
  );

function moved(
  family: Family,
  job: AnyJob,
  {
    which,
    where,
    far,
    style,
    scatter,
    unset,
  }: { which: number[]; where: number; far: number; style: number; scatter: number[]; unset: number },
): AnyJob {
  const readings = { ...job.readings };
  const sizes = { ...job.sizes };
  const asked = Object.keys(readings);
  const ids = [...asked, ...Object.keys(family.sizes)];
  for (const [n, one] of which.entries()) {
    const id = ids[one % ids.length];
    if (id === undefined) break;
    const at = (where * 0.618 * n + where) % 1.0001;
    const spec = family.readings[id];
    if (spec !== undefined) {
      const target = between(spec.from, spec.to, at);
      const value = spec.typical + far * (target - spec.typical);
      const times = spec.jaw === 'entered' ? [0] : [0, ...scatter];
      readings[id] = times.map((hundredths, k) =>
        readingText(Math.max(0.01, value + hundredths / 100), spec, job.unit, (style + k * 0.13) % 1),
      );
    } else {
      const size = family.sizes[id]!;
      const value = between(size.from, size.to, at);
      if (unset === 0) delete sizes[id];
      else
        sizes[id] =
          size.unit === '1'
            ? value.toFixed(3)
            : readingText(value, {}, job.unit, pick([0, 0.2, 0.5, 0.99], style));
    }
  }
  return { ...job, readings, sizes };
}

/** Every length somebody reads by the same factor, as far as its range goes. */
function swollen(family: Family, job: AnyJob, factor: number): AnyJob {
  const readings = Object.fromEntries(
    Object.entries(job.readings).map(([id, texts]) => {
      const spec = family.readings[id]!;
      if (spec.quantity === 'mass') return [id, texts];
      const value = Number.parseFloat(String(texts[0]).replace(',', '.'));
      const inch = /["n]/.test(String(texts[0])) || (job.unit === 'in' && !/[a-z]/.test(String(texts[0])));
      const mm = Math.min(spec.to - 0.1, Math.max(spec.from + 0.02, value * factor * (inch ? 25.4 : 1)));
      return [id, Number.isFinite(mm) ? [readingText(mm, spec, job.unit, 0)] : texts];
    }),
  );
  return { ...job, readings };
}
