import type { Jaw } from '../measure/types.ts';
import type { Quantity } from '../units/index.ts';
import type { Choices } from './choice.ts';

/** What a family asks a person to measure. Lengths in mm, masses in g. */
export interface ReadingSpec {
  /** Name on the sheet: "bar diameter". */
  readonly name: string;
  readonly jaw: Jaw;
  /** Absent: length. Others are entered, for callipers read lengths only. */
  readonly quantity?: Quantity;
  /** Inside jaws in a round hole: their flat lands make it read small. */
  readonly round: boolean;
  /** Plausible range, mm, both ends included; outside it a reading is refused. */
  readonly from: number;
  readonly to: number;
  /** What the sheet is drawn with before anything is read, mm. */
  readonly typical: number;
  /** How many readings the sheet asks for. */
  readonly times: number;
  /** Sizes the maker of the machine is likely to have meant, mm; pointed out, never rounded to. */
  readonly nominals?: readonly number[];
  /** Where and how to put the jaws, one or two sentences for the bench. */
  readonly tip: string;
  /** Asked only when this holds; absent: always. */
  readonly when?: (choices: Choices) => boolean;
  /** Taken when nobody reads it: value and standard uncertainty, mm. Absent: it must be read. */
  readonly otherwise?: { readonly value: number; readonly u: number };
  /** May be left out; the family then sees NaN. */
  readonly optional?: boolean;
  /** Standard uncertainty of an entered value; absent: of its last digit. */
  readonly u?: number;
}

type Asked = Omit<ReadingSpec, 'name' | 'jaw' | 'round' | 'times'> & { readonly times?: number };

const reading =
  (jaw: Jaw, round: boolean) =>
  (name: string, spec: Asked): ReadingSpec => ({ times: 3, ...spec, name, jaw, round });

/** Read with the large jaws around the outside of something. */
export const outside = reading('outside', false);
/** Read with the small jaws between two flat faces. */
export const inside = reading('inside', false);
/** Read with the small jaws in a round hole. */
export const insideRound = reading('inside', true);
/** Read with the depth rod. */
export const depth = reading('depth', false);
/** A length that no callipers read, such as the distance between two feet, by rule or tape. */
export const byRule = (name: string, spec: Asked): ReadingSpec => ({
  ...{ times: 1, u: 0.5, ...spec, name },
  ...({ jaw: 'entered', round: false } as const),
});
/** A mass by the kitchen scale, g. */
export const weighed = (name: string, spec: Asked): ReadingSpec => ({
  ...{ times: 1, ...spec, name },
  ...({ jaw: 'entered', round: false, quantity: 'mass' } as const),
});
