import type { InterfaceKind } from '../../family/interface.ts';
import type { Share } from '../../fit/types.ts';
import type { Callipers, Dimension, Jaw } from '../../measure/types.ts';
import type { Mesh } from '../../solid/mesh.ts';
import type { Placement, Vec3 } from '../../solid/vector.ts';
import type { Measured } from '../words/measured.ts';

/** Everything the report of a job tells; plain data. Lengths in mm, masses in g. */
export interface ReportInput {
  readonly title: string;
  /** The kind of part, and what it does, no full stop. */
  readonly family: { readonly id: string; readonly title: string; readonly version: number };
  readonly summary: string;
  readonly quantity: number;
  readonly material: string;
  readonly printer: ReportPrinter;
  /** 0..1; null when nothing was measured that the part meets. */
  readonly chance: number | null;
  /** Shares of the doubt, largest first. */
  readonly shares: readonly Share[];
  readonly advice: {
    readonly sentence: string;
    readonly minutes: number;
    readonly from: number;
    readonly to: number;
  } | null;
  readonly callipers: Callipers;
  /** In the order of measuring. */
  readonly readings: readonly ReportReading[];
  readonly fits: readonly ReportFit[];
  /** In the order of the result: the number of a finding is its place, from 1. */
  readonly findings: readonly ReportFinding[];
  readonly print: ReportPrint;
  /** At least one. */
  readonly parts: readonly ReportPart[];
  readonly assembly: { readonly name: string; readonly steps: readonly string[] } | null;
  /** Always shown, on the first page. */
  readonly cautions: readonly string[];
  /** What was changed on a model that was there before. */
  readonly refits: readonly { readonly by: number; readonly exact: boolean; readonly because: string }[];
  /** What is drawn otherwise because of earlier prints. */
  readonly changes: readonly ReportChange[];
  readonly again: ReportAgain;
}

export interface ReportPrinter {
  readonly name: string;
  /** ISO date; null when nobody has measured it. */
  readonly calibrated: string | null;
  readonly lineWidth: number;
  readonly layer: number;
  readonly firstLayer: number;
}

export interface ReportReading {
  readonly id: string;
  readonly name: string;
  readonly jaw: Jaw;
  readonly typed: readonly string[];
  /** Null where it was left out and nothing is taken instead. */
  readonly dimension: Dimension | null;
}

/** One place where part and machine meet. */
export interface ReportFit {
  readonly id: string;
  readonly name: string;
  readonly kind: InterfaceKind;
  /** The step ends in the middle of a hollow, or runs from middle to middle: no jaw reads it at once. */
  readonly readTo: 'face' | 'hollow' | 'centres';
  readonly host: number;
  readonly drawn: number;
  readonly predicted: number;
  readonly clearance: number;
  readonly u: number;
  readonly window: readonly [number, number];
  readonly chance: number;
  readonly shares: readonly Share[];
  /** Number of the finding that judges it; null where there is none. */
  readonly number: number | null;
  /** Which of the parts, from 0, and where on it, frame of the part. */
  readonly part: number;
  readonly at: Vec3;
  /** Unit vector in which the size is measured. */
  readonly across: Vec3;
}

export interface ReportFinding extends Measured {
  readonly id: string;
  readonly title: string;
  readonly verdict: 'holds' | 'caution' | 'fails';
  readonly because: string;
  readonly source: string;
  readonly remedy: string;
  /** Coordinates of the STL. */
  readonly at: Vec3 | null;
  /** Which of the parts, from 0; null when it is about all. */
  readonly part: number | null;
  readonly details?: Readonly<Record<string, number | string>>;
}

export interface ReportPrint {
  readonly lay: string;
  /** Of one set, printed solid. */
  readonly mass: number;
  /** Rough, of one set, and how they come about. */
  readonly minutes: number;
  readonly method: string;
  readonly layers: number;
  /** The first layer is drawn in by what it will spread. */
  readonly relieved: boolean;
}

export interface ReportPart {
  /** Empty when it is the only one. */
  readonly name: string;
  /** Frame of the part. */
  readonly mesh: Mesh;
  /** What of the machine is shown around it. */
  readonly hosts: readonly { readonly name: string; readonly mesh: Mesh }[];
  /** From the frame of the part to the coordinates of the STL. */
  readonly onBed: Placement;
  readonly mass: number;
  /** On the bed. */
  readonly extents: Vec3;
}

export interface ReportChange {
  readonly what: string;
  /** Without the earlier prints, and as it is now. */
  readonly before: string;
  readonly after: string;
  readonly why: string;
}

/** What somebody needs to make it again. */
export interface ReportAgain {
  /** Name of the job file. */
  readonly file: string;
  /** SHA-256 of the job, hex. */
  readonly hash: string;
  /** Of Fettle. */
  readonly version: string;
  readonly settings: readonly { readonly name: string; readonly value: string; readonly told: boolean }[];
  readonly note: string;
  readonly author: string;
  readonly licence: string;
}
