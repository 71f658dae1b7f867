import type { Vec3 } from '../solid/vector.ts';

/** `holds`: within the limit. `caution`: look at it. `fails`: will not do as it is. */
export type Verdict = 'holds' | 'caution' | 'fails';

/** One check's verdict, as data; sentences are bench language, no full stop at the end. */
export interface Finding {
  /** Stable: the check's name, then what it was about: `clearance.bar`, `snap.strain`. */
  readonly id: string;
  /** A few words: "strain of the mouth's arms". */
  readonly title: string;
  readonly verdict: Verdict;
  /** What was computed; null where the finding is no number. */
  readonly value: number | null;
  /** What it is held against, same unit; null where there is none. */
  readonly limit: number | null;
  /** `mm`, `N`, `%`, `deg`, `mm3`, `degC`, `1` ... */
  readonly unit: string;
  /** Distance to the limit in the unit, positive on the good side; null without a limit. */
  readonly margin: number | null;
  readonly because: string;
  /** Where the rule or formula comes from; "common practice, no source" where it has none. */
  readonly source: string;
  /** What puts it right; empty when it holds. */
  readonly remedy: string;
  /** Where on the part, in the coordinates of the written STL, mm; null when it is the whole part. */
  readonly at: Vec3 | null;
  /** Further numbers worth showing, by name with unit in the name's words. */
  readonly details?: Readonly<Record<string, number | string>>;
}
