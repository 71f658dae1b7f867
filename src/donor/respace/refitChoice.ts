import type { PlainSpan } from '../spans/plainSpans.ts';
import type { FeatureChange } from './featureChange.ts';
import type { TakeUp } from './levelMap.ts';
import type { LikelyCut } from './likelyCuts.ts';

interface Common {
  /** No trace is left: every wall that changes is parallel to the axis. */
  readonly exact: boolean;
  /** Whether a donor with a mirror plane still has one; null when it has none to keep. */
  readonly keepsSymmetry: boolean | null;
  /** Area of a section that lies on one side of a joint or span and not on the other. */
  readonly mismatchArea: number;
  /** Named features that become longer or are distorted. */
  readonly changes: readonly FeatureChange[];
  /** Named features that are cut into. */
  readonly cutsInto: readonly string[];
  /** Continues "this is so because ..."; no full stop. */
  readonly because: string;
}

/** Made by re-spacing: in plain spans without a trace, or over a stretch that is distorted. */
export interface SpacedChoice extends Common {
  readonly kind: 'span' | 'spans' | 'stretch';
  readonly takeUps: readonly TakeUp[];
  /** The level that does not move; null for everything below. */
  readonly stays: number | null;
  /** The plain spans used; empty for a stretch. */
  readonly spans: readonly PlainSpan[];
  /** The largest change of a take-up over its length. */
  readonly strain: number;
  /** Area of the facets that come to lean otherwise. */
  readonly slantedArea: number;
}

/** Made by the saw. */
export interface CutChoice extends Common {
  readonly kind: 'cut';
  readonly cut: LikelyCut;
}

export type RefitChoice = SpacedChoice | CutChoice;
