import { askedReadings, type Family } from '../family/family.ts';
import type { ReadingSpec } from '../family/reading.ts';
import type { Values } from '../family/values.ts';
import { namedFit } from '../fit/namedFit.ts';
import type { FitClass, Window } from '../fit/types.ts';
import { dimensionOf, refusals, unitOf } from '../measure/index.ts';
import type { Callipers, Dimension } from '../measure/types.ts';
import { defaultPrinter } from '../printer/defaultPrinter.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { findMaterial, type Material, materialNames } from '../standards/materials.ts';
import { TableRefusal } from '../standards/tableRefusal.ts';
import { parseQuantity } from '../units/index.ts';
import { callipersOf } from './callipersOf.ts';
import { allowedNames } from './nearest.ts';
import { type Problem, Refused } from './problem.ts';
import { readingTyped } from './readingTyped.ts';
import type { Job } from './schema.ts';
import { trialProblems } from './trial/trialProblems.ts';
import { shown } from './zodProblems.ts';

/** A job understood: every text parsed, every name looked up, every reading a dimension. */
export interface Prepared {
  readonly job: Job;
  readonly family: Family;
  readonly callipers: Callipers;
  /** Readings as measured, mm, by id; only those asked for and read. */
  readonly readings: Readonly<Record<string, readonly number[]>>;
  readonly dimensions: Readonly<Record<string, Dimension>>;
  readonly values: Values;
  readonly fits: Readonly<Record<string, FitClass | Window>>;
  readonly material: Material;
  readonly printer: PrinterProfile;
  /** Warmest the part gets, degC. */
  readonly temperature: number;
}

/** Warmest inside a desktop machine with its lid on, degC; common practice, no source. */
const NORMAL_TEMPERATURE = 45;

/** Parses what a job says against what its family asks. Throws `Refused` with every problem found. */
export function prepare(job: Job, family: Family): Prepared {
  const problems: Problem[] = [];
  const say = (problem: Problem): undefined => void problems.push(problem);

  const choices = choicesOf(job, family, say);
  const callipers = callipersOf(job.callipers ?? {}, job.unit, say);
  const asked = askedReadings(family, choices);
  const { readings, dimensions } = dimensionsOf(job, family, asked, callipers, say);
  const printer = printerOf(job, say);
  const material = findMaterial(job.material);
  if (!material) {
    say({
      code: 'material_unknown',
      field: 'material',
      value: shown(job.material),
      allowed: allowedNames(job.material, materialNames),
    });
  }
  const temperature = temperatureOf(job, say);
  trialProblems(job.trials ?? [], job.unit, say);
  const texts = textsOf(job, family, say);
  const given = sizesOf(job, family, say);
  if (problems.length > 0 || !material || !printer) throw new Refused(problems);

  const measured = Object.fromEntries(
    Object.keys(family.readings).map((id) => [id, dimensions[id]?.value ?? Number.NaN]),
  );
  const values = { ...measured, ...given, choices, texts, material } as unknown as Values;
  Object.assign(values, { ...family.normalSizes(values), ...given });
  judge(job, family, values, say);
  if (problems.length > 0) throw new Refused(problems);
  const fits = fitsOf(job, family, values, say);
  if (problems.length > 0) throw new Refused(problems);
  return { job, family, callipers, readings, dimensions, values, fits, material, printer, temperature };
}

type Say = (problem: Problem) => undefined;

function choicesOf(job: Job, family: Family, say: Say): Readonly<Record<string, string>> {
  const known = Object.keys(family.choices);
  for (const [id, value] of Object.entries(job.choices)) {
    const choice = Object.hasOwn(family.choices, id) ? family.choices[id] : undefined;
    if (!choice)
      say({
        code: 'choice_unknown',
        field: `choices.${id}`,
        value: '',
        allowed: allowedNames(id, known),
        reason: `is no choice of a ${family.title.toLowerCase()}`,
      });
    else if (!choice.options.includes(value))
      say({
        code: 'choice_value',
        field: `choices.${id}`,
        value: shown(value),
        allowed: allowedNames(value, choice.options),
      });
  }
  return Object.fromEntries(known.map((id) => [id, job.choices[id] ?? family.choices[id]!.normal]));
}

function dimensionsOf(
  job: Job,
  family: Family,
  asked: readonly (readonly [string, ReadingSpec])[],
  callipers: Callipers,
  say: Say,
): Pick<Prepared, 'readings' | 'dimensions'> {
  const readings: Record<string, readonly number[]> = {};
  const dimensions: Record<string, Dimension> = {};
  for (const id of Object.keys(job.readings)) {
    if (!Object.hasOwn(family.readings, id)) {
      say({
        code: 'reading_unknown',
        field: `readings.${id}`,
        value: '',
        allowed: allowedNames(id, Object.keys(family.readings)),
        reason: `is no reading of a ${family.title.toLowerCase()}`,
      });
    }
  }
  for (const [id, spec] of asked) {
    const texts = job.readings[id] ?? [];
    const field = `readings.${id}`;
    if (texts.length === 0) {
      if (spec.otherwise) {
        const { value, u } = spec.otherwise;
        dimensions[id] = dimensionOf({ ...spec, id, jaw: 'entered', u }, [value], callipers);
      } else if (!spec.optional) {
        say({
          code: 'reading_missing',
          field,
          value: '',
          allowed: `${spec.times === 1 ? 'a reading' : `${spec.times} readings`} from ${spec.from} to ${spec.to} ${unitOf(spec)}`,
          reason: `(${spec.name}) has not been read`,
        });
      }
      continue;
    }
    const parsed = texts.map((text, k) => {
      const length = readingTyped(spec, String(text), job.unit);
      if (length.ok) return length.value;
      return say({
        code: 'reading_unclear',
        field: `${field}[${k}]`,
        value: shown(text),
        allowed: length.allowed,
        reason: `(${spec.name}) ${length.reason}`,
      });
    });
    const values = parsed.filter((value) => value !== undefined);
    if (values.length < parsed.length) continue;
    const refused = refusals({ ...spec, id }, values, callipers);
    for (const { index, allowed, reason } of refused) {
      say({
        code: 'reading_range',
        field: `${field}[${index}]`,
        value: shown(texts[index]),
        allowed,
        reason: `(${spec.name}) ${reason}`,
      });
    }
    if (refused.length > 0) continue;
    readings[id] = values;
    dimensions[id] = dimensionOf({ ...spec, id }, values, callipers);
  }
  return { readings, dimensions };
}

function printerOf({ printer }: Job, say: Say): PrinterProfile | undefined {
  if (typeof printer !== 'string') return printer ?? defaultPrinter;
  return say({
    code: 'printer_unread',
    field: 'printer',
    value: shown(printer),
    allowed: 'a printer profile, or the name of its file beside the job',
  });
}

function temperatureOf(job: Job, say: Say): number {
  const text = job.surroundings?.temperature;
  if (text === undefined) return NORMAL_TEMPERATURE;
  const field = 'surroundings.temperature';
  const parsed = parseQuantity(String(text), 'temperature');
  if (!parsed.ok)
    say({
      code: 'temperature_unclear',
      field,
      value: shown(text),
      allowed: parsed.allowed,
      reason: parsed.reason,
    });
  else if (parsed.value < -40 || parsed.value > 300)
    say({ code: 'temperature_range', field, value: shown(text), allowed: '-40 to 300 degC' });
  else return parsed.value;
  return NORMAL_TEMPERATURE;
}

function textsOf(job: Job, family: Family, say: Say): Readonly<Record<string, string>> {
  const known = Object.keys(family.texts);
  for (const [id, text] of Object.entries(job.texts ?? {})) {
    const spec = Object.hasOwn(family.texts, id) ? family.texts[id] : undefined;
    const field = `texts.${id}`;
    if (!spec)
      say({
        code: 'text_unknown',
        field,
        value: '',
        allowed: allowedNames(id, known),
        reason: `is no text of a ${family.title.toLowerCase()}`,
      });
    // What the strokes of the letters can write.
    else if (text.length > spec.longest || !/^[\x20-\x7e]*$/.test(text))
      say({
        code: 'text_unclear',
        field,
        value: shown(text),
        allowed: `up to ${spec.longest} letters, digits and signs of ASCII`,
        reason: `(${spec.name}) cannot be written`,
      });
  }
  return Object.fromEntries(known.map((id) => [id, (job.texts?.[id] ?? '').trim()]));
}

function sizesOf(job: Job, family: Family, say: Say): Readonly<Record<string, number>> {
  const sizes: Record<string, number> = {};
  for (const [id, text] of Object.entries(job.sizes)) {
    const spec = Object.hasOwn(family.sizes, id) ? family.sizes[id] : undefined;
    const field = `sizes.${id}`;
    if (!spec) {
      say({
        code: 'size_unknown',
        field,
        value: '',
        allowed: allowedNames(id, Object.keys(family.sizes)),
        reason: `is no size of a ${family.title.toLowerCase()}`,
      });
      continue;
    }
    const parsed =
      spec.unit === 'mm'
        ? parseQuantity(String(text), 'length', { defaultUnit: job.unit })
        : parseRatio(String(text));
    const range = `${spec.from} to ${spec.to}${spec.unit === 'mm' ? ' mm' : ''}`;
    if (!parsed.ok)
      say({
        code: 'size_unclear',
        field,
        value: shown(text),
        allowed: range,
        reason: `(${spec.name}) ${parsed.reason}`,
      });
    else if (parsed.value < spec.from || parsed.value > spec.to)
      say({
        code: 'size_range',
        field,
        value: shown(text),
        allowed: range,
        reason: `(${spec.name}) is out of range`,
      });
    else sizes[id] = parsed.value;
  }
  return sizes;
}

/** A plain number: decimal comma or point, no unit. A length's grammar without the unit. */
function parseRatio(text: string): { ok: true; value: number } | { ok: false; reason: string } {
  if (/[^\d.,\s+-]/.test(text)) return { ok: false, reason: 'is no plain number such as 0.88' };
  return parseQuantity(text, 'length');
}

function judge(job: Job, family: Family, values: Values, say: Say): void {
  for (const { ok, field, reason } of family.rules(values)) {
    if (ok) continue;
    const [part, spec] =
      field in family.readings
        ? (['readings', family.readings[field]!] as const)
        : field in family.sizes
          ? (['sizes', family.sizes[field]!] as const)
          : (['choices', family.choices[field]] as const);
    const given =
      part === 'readings' ? job.readings[field] : part === 'sizes' ? job.sizes[field] : job.choices[field];
    const range =
      spec && 'from' in spec
        ? `${spec.from} to ${spec.to} ${part === 'readings' ? unitOf(family.readings[field]!) : 'mm'}, in keeping with the others`
        : (spec?.options.join(', ') ?? '');
    say({
      code: 'contradiction',
      field: `${part}.${field}`,
      value: shown(given),
      allowed: range,
      reason: `(${spec?.name ?? field}) ${reason}`,
    });
  }
}

function fitsOf(job: Job, family: Family, values: Values, say: Say): Prepared['fits'] {
  const hosts = new Map(family.interfaces(values, {}).map(({ id, host }) => [id, host]));
  const fits: Record<string, FitClass | Window> = {};
  for (const [id, fit] of Object.entries(job.fits)) {
    const field = `fits.${id}`;
    const value = shown(fit);
    const host = hosts.get(id);
    if (host === undefined) {
      say({
        code: 'interface_unknown',
        field,
        value: '',
        allowed: allowedNames(id, [...hosts.keys()]),
        reason: 'is no meeting surface of this part',
      });
      continue;
    }
    try {
      const found = typeof fit === 'string' ? namedFit(fit, host) : { lo: fit[0], hi: fit[1] };
      if (typeof found === 'string' || (found.lo < found.hi && found.lo >= -2 && found.hi <= 5))
        fits[id] = found;
      else
        say({
          code: 'window_range',
          field,
          value,
          allowed:
            typeof fit === 'string'
              ? 'a code with clearances from -2 to 5 mm'
              : 'two clearances in mm, the smaller first, from -2 to 5',
        });
    } catch (error) {
      if (!(error instanceof TableRefusal)) throw error;
      say({ code: 'fit_unknown', field, value, allowed: error.allowed });
    }
  }
  return fits;
}
