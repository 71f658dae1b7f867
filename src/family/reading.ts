import type { Jaw } from '../measure/types.ts';
import type { Choices } from './choice.ts';

/** What a family asks a person to measure. Lengths in mm. */
export interface ReadingSpec {
  /** Name on the sheet: "bar diameter". */
  readonly name: string;
  readonly jaw: Jaw;
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
