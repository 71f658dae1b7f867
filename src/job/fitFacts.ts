import type { Family } from '../family/family.ts';
import { windowOf } from '../fit/classes.ts';
import type { FeltVerdict } from '../fit/feltRecord.ts';
import type { FitClass } from '../fit/types.ts';
import { feltLadder, printedAlike } from './feltLadder.ts';
import { prepare } from './prepare.ts';
import type { Job } from './schema.ts';

/** How one meeting surface feels when the job asks for nothing else. */
export interface SurfaceFacts {
  /** As in `job.fits`; the parts of a set share it. */
  readonly id: string;
  readonly name: string;
  /** Size of the machine there, mm. */
  readonly host: number;
  /** The class it usually is; null for a window of its own. */
  readonly normal: FitClass | null;
  /** Clearances that usually feel right, mm; infinite where there is no such end. */
  readonly window: readonly [number, number];
  /** Group of the ladder on whose verdict its clearance rests; null for none. */
  readonly ladder: string | null;
}

/** A ladder of the job, and what was said of it. */
export interface LadderFacts {
  /** Group of interfaces it stepped. */
  readonly group: string;
  /** When it was drawn, ISO. */
  readonly date: string;
  readonly printer: string;
  readonly material: string;
  readonly rungs: number;
  /** Null until somebody has tried it. */
  readonly felt: FeltVerdict | null;
  /** Whether it was printed on the printer, in the material and layers of the job: others say nothing here. */
  readonly speaks: boolean;
}

/** What a form about fits needs beyond the result; plain data. */
export interface FitFacts {
  readonly surfaces: readonly SurfaceFacts[];
  readonly ladders: readonly LadderFacts[];
  /** Places of the machine's motion, in order; one where nothing moves. */
  readonly motion: readonly string[];
}

/** The fits of a job as its family means them. Throws `Refused` as `prepare` does, but for what is wrong with the fits
 *  that the job asks for. */
export function fitFacts(job: Job, family: Family): FitFacts {
  const prepared = prepare({ ...job, fits: {} }, family);
  const { values } = prepared;
  const { ladders = {} } = job;
  return {
    surfaces: family.interfaces(values, {}).map(({ id, name, host, fit }) => {
      const { lo, hi } = windowOf(fit);
      return {
        ...{ id, name, host },
        normal: typeof fit === 'string' ? fit : null,
        window: [lo, hi],
        ladder: feltLadder(prepared, id)?.group ?? null,
      };
    }),
    ladders: Object.entries(ladders).map(([group, record]) => ({
      ...{ group, date: record.date, printer: record.printer, material: record.material },
      rungs: record.rungs.length,
      felt: record.felt ?? null,
      speaks: printedAlike(prepared, record),
    })),
    motion: family.motion(values).map(({ name }) => name),
  };
}
