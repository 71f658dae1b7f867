import type { Finding } from '../check/finding.ts';
import type { FamilyChange } from '../family/family.ts';
import type { InterfaceKind } from '../family/interface.ts';
import type { Share } from '../fit/types.ts';
import type { Dimension } from '../measure/types.ts';
import type { Mesh } from '../solid/mesh.ts';
import type { Vec3 } from '../solid/vector.ts';
import type { TrialChange } from './trial/whatChanged.ts';

/** One meeting surface as reported; `at`, `axis` and `across` in the coordinates of the written STL, mm. */
export interface ReportedInterface {
  readonly id: string;
  readonly name: string;
  readonly kind: InterfaceKind;
  readonly at: Vec3;
  readonly axis: Vec3;
  readonly across: Vec3;
  readonly length: number;
  readonly host: number;
  readonly drawn: number;
  readonly predicted: number;
  readonly clearance: number;
  readonly u: number;
  readonly window: readonly [number, number];
  readonly chance: number;
  readonly shares: readonly Share[];
}

/** What would raise the chance, and to what. */
export interface ReportedAdvice {
  readonly id: string;
  readonly sentence: string;
  readonly minutes: number;
  readonly from: number;
  readonly to: number;
}

/** What comes out of the pipeline; plain data, no wasm memory. */
export interface MakeResult {
  readonly job: {
    readonly family: string;
    readonly title: string;
    readonly quantity: number;
    readonly material: string;
    readonly printer: string;
    /** ISO date of the printer's calibration; null without. */
    readonly calibrated: string | null;
    /** SHA-256 of all that decides what is made, hex; see `jobHash`. */
    readonly hash: string;
  };
  readonly dimensions: Readonly<Record<string, Dimension>>;
  readonly interfaces: readonly ReportedInterface[];
  /** Chance that all parts fit the first time, 0..1; null when nothing was measured that they meet. */
  readonly chance: number | null;
  /** Shares of the doubt about the whole part, largest first. */
  readonly shares: readonly Share[];
  readonly advice: ReportedAdvice | null;
  readonly findings: readonly Finding[];
  /** The gentlest order of putting the part in, step by step; null when the family names none. */
  readonly assembly: { readonly id: string; readonly name: string; readonly steps: readonly string[] } | null;
  /** What was done to a model that was there before; absent where there was none. */
  readonly changes?: readonly FamilyChange[];
  /** What earlier prints changed about the sizes that are drawn, and why; absent where they changed nothing. */
  readonly changed?: readonly TrialChange[];
  /** Where the work can hurt someone or the machine; always shown. */
  readonly cautions: readonly string[];
  /** Of all parts that the job makes once: volume, mass and triangles together, the most of the rest. */
  readonly print: ReportedPrint;
  /** The parts; one, unless the job makes a set. */
  readonly parts: readonly MadePart[];
}

/** What goes to the printer. */
export interface ReportedPrint {
  readonly lay: string;
  /** mm^3 and g, printed solid. */
  readonly volume: number;
  readonly mass: number;
  readonly layers: number;
  readonly layer: number;
  /** Extents on the bed, mm. */
  readonly extents: Vec3;
  readonly triangles: number;
}

/** One part. Its interfaces and findings start with its id and a point, unless it is the only one. */
export interface MadePart {
  /** Empty when it is the only one. */
  readonly id: string;
  readonly name: string;
  readonly print: ReportedPrint;
  /** The part as drawn, on the bed. */
  readonly mesh: Mesh;
}
