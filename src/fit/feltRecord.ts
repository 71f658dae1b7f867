/** What the person said of the rungs, by their numbers from 1. Rung 1 is the tightest. */
export interface FeltVerdict {
  readonly tight: readonly number[];
  readonly right: readonly number[];
  readonly loose: readonly number[];
  /** The one that felt best, where only that was said. */
  readonly best?: number | undefined;
}

/** One copy of an interface on the strip, sizes by interface, mm. */
export interface FeltRung {
  readonly drawn: Readonly<Record<string, number>>;
  /** Clearance expected of it when it was printed. */
  readonly clearance: Readonly<Record<string, number>>;
}

/** A ladder as the job remembers it: what was printed, how well that was known then, and what was felt. */
export interface FeltRecord {
  /** Rung 1 first, clearance rising. */
  readonly rungs: readonly FeltRung[];
  readonly doubt: {
    /** Standard uncertainty of the clearance that all rungs share, mm, 0 or above. */
    readonly u: number;
    /** Standard deviation from size to size, mm, above 0. */
    readonly spread: number;
  };
  /** Clearances that feel right, both ends included, by interface, mm; null where there is no end. */
  readonly window: Readonly<Record<string, readonly [number | null, number | null]>>;
  /** Clearance aimed for, by interface, mm. */
  readonly aim: Readonly<Record<string, number>>;
  readonly felt?: FeltVerdict | undefined;
  /** The clearances expected and their doubt rest on an earlier ladder's verdict, and stand until this one has its own. */
  readonly earlier?: boolean | undefined;
}

/** Clearances this close are the same, mm. */
const SAME = 1e-9;

/** Interfaces of the group whose clearance changes from rung to rung. One that comes in whole layers may stand still while
 *  the others step; what was felt says nothing of it. */
export const steppedOf = ({ rungs }: FeltRecord): readonly string[] =>
  Object.keys(rungs[0]?.clearance ?? {}).filter((id) => {
    const all = rungs.map(({ clearance }) => clearance[id]!);
    return Math.max(...all) - Math.min(...all) > SAME;
  });
