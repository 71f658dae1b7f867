import type { FeatureChange } from '../donor/respace/featureChange.ts';
import type { RefitChoice } from '../donor/respace/refitChoice.ts';
import { axisFrame } from '../donor/spans/axisFrame.ts';
import { outlineStep } from '../donor/spans/outlineStep.ts';
import { outlinesAt } from '../donor/spans/section.ts';
import type { RefitStep } from './refitSteps.ts';

/** One of the ways to make a change of length, as data for whoever has to choose. mm. */
export interface RefitWay {
  readonly kind: RefitChoice['kind'];
  /** Leaves no trace. */
  readonly exact: boolean;
  /** Null for a model that has no symmetry to keep. */
  readonly keepsSymmetry: boolean | null;
  /** What the sections differ by where they meet, mm^2, and how far their outlines step apart where they differ most, mm;
   *  `step` is null where nothing meets that was apart before. */
  readonly mismatch: { readonly area: number; readonly step: number | null };
  /** Continues "this is so because ...". */
  readonly because: string;
  /** Bores and posts that become longer or shorter, are no longer round, or are cut into. */
  readonly changes: readonly FeatureChange[];
  readonly cutsInto: readonly string[];
  /** Where it happens, levels on the axis before the change. */
  readonly bands: readonly Band[];
}

/** A stretch that becomes longer by so much; shorter below 0. */
export interface Band {
  readonly from: number;
  readonly to: number;
  readonly by: number;
}

/** The ways of a step. */
export const waysOf = ({ proposal, before, wanted }: RefitStep): readonly RefitWay[] => {
  const frame = axisFrame(before.positions, wanted.axis);
  return proposal.choices.map((choice) => {
    const { kind, exact, keepsSymmetry, mismatchArea, because, changes, cutsInto } = choice;
    const joint = jointOf(choice, wanted.by);
    const [a, b] = joint === null ? [] : outlinesAt(before.triangles, frame, joint);
    const step = a && b ? outlineStep(a, b) : null;
    return {
      ...{ kind, exact, keepsSymmetry, because, changes, cutsInto },
      mismatch: { area: mismatchArea, step: exact ? 0 : step },
      bands: bandsOf(choice, wanted.by),
    };
  });
};

/** Where a choice happens, levels before it: what is taken out, or what becomes longer. */
export const bandsOf = (choice: RefitChoice, by: number): readonly Band[] =>
  choice.kind === 'cut'
    ? [{ from: choice.cut.at, to: choice.cut.at + Math.max(0, -by), by }]
    : choice.takeUps;

/** Two levels whose sections come to meet; null where none do. */
function jointOf(choice: RefitChoice, by: number): readonly [number, number] | null {
  if (choice.kind === 'cut') return by < 0 ? [choice.cut.at, choice.cut.at - by] : null;
  if (choice.kind === 'stretch') return null;
  const [widest] = [...choice.spans].sort((a, b) => b.mismatchArea - a.mismatchArea);
  if (!widest) return null;
  const inside = 0.02 * widest.length;
  return [widest.from + inside, widest.to - inside];
}
