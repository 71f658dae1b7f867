import { families } from '../../parts/index.ts';
import type { Family } from '../family/family.ts';
import { jobText as textOf } from '../job/jobText.ts';
import { newJob as startedJob } from '../job/newJob.ts';
import { parseJob } from '../job/readJob.ts';
import type { JobFile } from '../job/schema.ts';
import { unitOf } from '../measure/index.ts';
import { familyOf } from './familyOf.ts';

/** A reading that a family asks for. */
export interface ReadingInfo {
  readonly id: string;
  /** For a person: "bar diameter". */
  readonly name: string;
  /** How it is read; `entered` is no reading of callipers. */
  readonly jaw: 'outside' | 'inside' | 'depth' | 'entered';
  /** Of `from`, `to` and `typical`: mm, or what the reading is in. */
  readonly unit: string;
  /** Plausible range, both ends included; a reading outside is refused. */
  readonly from: number;
  readonly to: number;
  readonly typical: number;
  /** How many readings are asked for. */
  readonly times: number;
  /** It may be left out. */
  readonly optional: boolean;
  /** Where and how to put the jaws. */
  readonly tip: string;
}

/** A kind of part, and what a job of it may say. */
export interface FamilyInfo {
  readonly id: string;
  readonly title: string;
  readonly version: number;
  readonly summary: string;
  /** Of all choices; which of them a job is asked for depends on what it chooses. */
  readonly readings: readonly ReadingInfo[];
  readonly choices: readonly {
    readonly id: string;
    readonly name: string;
    readonly options: readonly string[];
    readonly normal: string;
    readonly tip: string;
  }[];
  /** What may be set and need not be; `from` and `to` in `unit`, mm or 1 for a ratio. */
  readonly sizes: readonly {
    readonly id: string;
    readonly name: string;
    readonly from: number;
    readonly to: number;
    readonly unit: 'mm' | '1';
    readonly tip: string;
  }[];
}

/** Every kind of part that can be made, in the order of the list.
 *  @example listFamilies().map(({ id }) => id) // => ['stabiliser-clip', 'case-foot', ...] */
export const listFamilies = (): readonly FamilyInfo[] => families.map(infoOf);

function infoOf({ id, title, version, summary, readings, choices, sizes }: Family): FamilyInfo {
  return {
    ...{ id, title, version, summary },
    readings: Object.entries(readings).map(([key, spec]) => ({
      ...{ id: key, name: spec.name, jaw: spec.jaw, unit: unitOf(spec), from: spec.from, to: spec.to },
      ...{ typical: spec.typical, times: spec.times, tip: spec.tip },
      optional: spec.optional === true || spec.otherwise !== undefined,
    })),
    choices: Object.entries(choices).map(([key, choice]) => ({ ...choice, id: key })),
    sizes: Object.entries(sizes).map(([key, size]) => ({ ...size, id: key })),
  };
}

/** A job with nothing read yet: choices as usual, an empty list for each reading. `quantity` 1 to 1000. Throws `Refused`:
 *  `family_unknown`, and a problem for each of `told` that a job may not say.
 *  @example newJob('spacer', { title: 'Under the video board', quantity: 4 }).readings // => { screw: [], gap: [], joint: [] } */
export function newJob(
  family: string,
  told: { readonly title?: string; readonly material?: string; readonly quantity?: number } = {},
): JobFile {
  const job = startedJob(familyOf(family), told);
  parseJob(job, families);
  return job;
}

/** A job as the text of its file.
 *  @example jobText(newJob('spacer')).startsWith('{\n  "fettle": 1') // => true */
export const jobText = (job: JobFile): string => textOf(job);
