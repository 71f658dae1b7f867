import { defaultCallipers, dimensionOf } from '../../measure/index.ts';
import type { ScrewReadings } from '../../standards/threads/identifyScrew.ts';
import { type Known, pitchOver } from '../../standards/threads/pitchOver.ts';
import { parseLength, parseQuantity } from '../../units/index.ts';
import { type Problem, Refused } from '../problem.ts';

/** What callipers show of a screw, as typed. */
export interface ScrewOptions {
  readonly diameter: string;
  readonly pitch?: string;
  readonly threads?: string;
  readonly over?: string;
}

/** A screw as read, mm, and over how many threads its pitch was taken; 0 when it was not. */
export interface ReadScrew extends ScrewReadings {
  readonly threads: number;
}

/** What the tables can have; anything else is a slip of the unit or of the point. */
const DIAMETERS = { from: 1, to: 12, such: '1 to 12 mm, such as 2.84 or 0.112in' } as const;
const PITCHES = { from: 0.15, to: 3, such: '0.15 to 3 mm, such as 0.8 or 0.025in' } as const;
const MOST_THREADS = 100;

/** Reads what was typed of a screw, lengths without a unit in `unit`, and gives each value the doubt of ordinary digital
 *  callipers. Throws `Refused` with every text that says nothing, and with those that say too much or too little together;
 *  fields are called as the options of `fettle screw`. */
export function readScrew(
  { diameter, pitch, threads, over }: ScrewOptions,
  unit: 'mm' | 'in' = 'mm',
): ReadScrew {
  const problems: Problem[] = [];
  const refuse = (option: string, text: string, allowed: string, reason?: string): undefined => {
    const value = text === '' ? '' : JSON.stringify(text);
    const why = reason === undefined ? {} : { reason };
    problems.push({ code: 'option_unclear', field: `--${option}`, value, allowed, ...why });
  };
  const length = (
    option: string,
    text: string | undefined,
    { from, to, such }: { readonly from: number; readonly to: number; readonly such: string },
  ): number | undefined => {
    if (text === undefined) return undefined;
    const parsed = parseLength(text, unit);
    if (!parsed.ok) return refuse(option, text, such, parsed.reason);
    return parsed.mm >= from && parsed.mm <= to ? parsed.mm : refuse(option, text, such, 'is out of range');
  };

  const across = length('diameter', diameter, DIAMETERS);
  const crest = length('pitch', pitch, PITCHES);
  const count = threads === undefined ? undefined : countOf(threads, refuse);
  const longest = PITCHES.to * MOST_THREADS;
  const long = length('over', over, {
    from: PITCHES.from,
    to: longest,
    such: `${PITCHES.from} to ${longest} mm`,
  });
  const either = '--pitch, or --threads and --over';
  if (pitch !== undefined && over !== undefined) refuse('over', over, either, 'says the pitch a second time');
  else if (over !== undefined && threads === undefined)
    refuse(
      'over',
      over,
      'a count of threads beside it, such as --threads 10',
      'is a length over unknown threads',
    );
  else if (threads !== undefined && over === undefined && pitch === undefined)
    refuse(
      'threads',
      threads,
      'a length beside it, such as --over 7.9',
      'comes without the length of its threads',
    );
  else if (long !== undefined && count !== undefined && over !== undefined) {
    const each = long / count;
    if (each < PITCHES.from || each > PITCHES.to)
      refuse(
        'over',
        over,
        `${PITCHES.from} to ${PITCHES.to} mm a thread`,
        `is ${each.toFixed(3)} mm a thread`,
      );
  }
  if (problems.length > 0) throw new Refused(problems);

  const known = asRead('Outside diameter', across!);
  if (crest === undefined && long === undefined) return { diameter: known, threads: 0 };
  const over1 = count ?? 1;
  const total = long ?? crest! * over1;
  return { diameter: known, pitch: pitchOver(asRead('Length over threads', total), over1), threads: over1 };
}

function countOf(
  text: string,
  refuse: (option: string, text: string, allowed: string, reason?: string) => undefined,
): number | undefined {
  const allowed = `a whole number from 1 to ${MOST_THREADS}`;
  const parsed = parseQuantity(text, 'count');
  if (!parsed.ok) return refuse('threads', text, allowed, parsed.reason);
  const { value } = parsed;
  return value >= 1 && value <= MOST_THREADS ? value : refuse('threads', text, allowed, 'is out of range');
}

/** One outside reading with the usual callipers. */
function asRead(name: string, value: number): Known {
  const spec = { id: 'screw', name, jaw: 'outside', from: value, to: value } as const;
  return { value, u: dimensionOf(spec, [value], defaultCallipers).u };
}
