import type { Callipers } from '../../measure/types.ts';
import { callipersOf } from '../callipersOf.ts';
import { callipersSchema } from '../callipersSchema.ts';
import { keysAt } from '../keysAt.ts';
import { type Problem, Refused } from '../problem.ts';
import { problemsOf, shown } from '../zodProblems.ts';

/** Callipers as told on the command line, texts as typed. */
export interface CalliperOptions {
  readonly callipers?: string;
  readonly resolution?: string;
  readonly zero?: string;
  readonly landWidth?: string;
  readonly permissibleError?: string;
  readonly unit?: string;
}

/** Options by the name of their field in a file. */
const OPTIONS = {
  name: ['callipers', '--callipers'],
  resolution: ['resolution', '--resolution'],
  zero: ['zero', '--zero'],
  landWidth: ['landWidth', '--land-width'],
  permissibleError: ['permissibleError', '--permissible-error'],
} as const;

/** The callipers the coupon is read with: what the command line says goes before what the file says, and what neither
 *  says is as usual. Throws `Refused` with every problem. */
export function toldCallipers(
  options: CalliperOptions,
  file: { readonly callipers?: unknown; readonly unit?: unknown },
): {
  readonly callipers: Callipers;
  readonly unit: 'mm' | 'in';
  readonly told: Readonly<Record<string, unknown>>;
} {
  const problems: Problem[] = [];
  const unit = options.unit ?? file.unit ?? 'mm';
  if (unit !== 'mm' && unit !== 'in') {
    const field = options.unit === undefined ? 'unit' : '--unit';
    throw new Refused([{ code: 'unit_unknown', field, value: shown(unit), allowed: 'mm or in' }]);
  }
  const given = Object.entries(OPTIONS).flatMap(([field, [option]]) =>
    options[option] === undefined ? [] : [[field, options[option]] as const],
  );
  const inFile = file.callipers ?? {};
  const fields = { ...(typeof inFile === 'object' ? inFile : {}), ...Object.fromEntries(given) };
  const told = typeof inFile === 'object' && !Array.isArray(inFile) ? fields : inFile;
  const parsed = callipersSchema.safeParse(told);
  const atOption = (problem: Problem): Problem => {
    const key = problem.field.replace(/^callipers\.?/, '');
    const option = given.some(([field]) => field === key)
      ? OPTIONS[key as keyof typeof OPTIONS][1]
      : undefined;
    return option === undefined ? problem : { ...problem, field: option };
  };
  if (!parsed.success) {
    const found = problemsOf(told, parsed.error, keysAt(callipersSchema), 'callipers');
    throw new Refused(
      found.map((problem) =>
        atOption({ ...problem, field: problem.field === '' ? 'callipers' : `callipers.${problem.field}` }),
      ),
    );
  }
  const callipers = callipersOf(parsed.data, unit, (problem) => problems.push(atOption(problem)));
  if (problems.length > 0) throw new Refused(problems);
  return { callipers, unit, told: fields };
}
