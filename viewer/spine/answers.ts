import type { Problem } from '../../src/job/problem.ts';
import type { RefitSheet } from '../../src/job/refitSheet.ts';
import type { MakeResult } from '../../src/job/result.ts';
import type { ScenePart } from '../../src/job/scene.ts';
import type { JobFile } from '../../src/job/schema.ts';
import type { LineView } from '../../src/output/drawing/index.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import type { ModelInTheRound } from './tasks/modelInTheRound.ts';

/** What became of one version of the job: made, or refused with every problem. Plain data, as it crosses to the page. */
export type Outcome = Made | RefusedJob;

export interface Made {
  readonly kind: 'made';
  readonly result: MakeResult;
  readonly scene: readonly ScenePart[];
  /** Number of the print that lies on the bench, still to be read or tried, from 1; null for none. */
  readonly onBench: number | null;
  /** Time the pipeline itself took, ms. */
  readonly took: number;
}

export interface RefusedJob {
  readonly kind: 'refused';
  readonly problems: readonly Problem[];
}

/** A family as the list of them shows it. */
export interface FamilyLine {
  readonly id: string;
  readonly title: string;
  readonly summary: string;
}

/** What a file was that was given to the page. */
export type OpenedFile =
  | {
      readonly kind: 'job';
      /** As typed; with the printer profile in it where a bundle brought one. */
      readonly job: JobFile;
      readonly bundled: boolean;
      /** The donor that came in a bundle, under the name by which the job knows it. */
      readonly model?: { readonly name: string; readonly bytes: Uint8Array };
    }
  | { readonly kind: 'printer'; readonly profile: PrinterProfile };

/** The sheet about a model, and the model for the picture in the round. */
export interface ShownModel extends RefitSheet {
  readonly round: ModelInTheRound;
}

/** Lines on paper at 1:1, mm, hidden ones left out. */
export interface SolidLines {
  readonly part: LineView['visible'];
  readonly machine: LineView['visible'];
}
