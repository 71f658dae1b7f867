import type { RefitSheet } from '../../src/job/refitSheet.ts';
import type { Band } from '../../src/job/refitWay.ts';

/** The way that somebody points at: of which change, and its place among the ways. */
export interface LitWay {
  readonly change: number;
  readonly way: number;
}

/** A place where a change leaves a trace, or would. */
export interface TracedBand extends Pick<Band, 'from' | 'to'> {
  /** Number of the way that is pointed at; null for a change that is made. */
  readonly way: number | null;
}

/** Where what leaves a trace is, along the axis shown: of changes that are made, and of the way that is pointed at. */
export function tracedBands(
  { changes, axes, shown }: Pick<RefitSheet, 'changes' | 'axes' | 'shown'>,
  lit: LitWay | null,
): readonly TracedBand[] {
  const { axis } = axes[shown]!;
  return changes.flatMap((change, at): readonly TracedBand[] => {
    if (!axis.every((x, k) => Math.abs(x - change.axis[k]!) < 1e-9)) return [];
    const pointed = lit?.change === at ? change.ways[lit.way] : undefined;
    if (pointed) return pointed.bands.map(({ from, to }) => ({ from, to, way: lit!.way + 1 }));
    const taken = change.taken === null ? undefined : change.ways[change.taken];
    return taken && !taken.exact ? change.bands.map(({ from, to }) => ({ from, to, way: null })) : [];
  });
}
