import type { LevelMap, TakeUp } from '../../../src/donor/respace/levelMap.ts';
import { draftMap, draftTakeUps } from '../../donor/layAlong.ts';
import { staysAt } from '../../donor/pulledEnd.ts';
import type { Draft } from '../../donor/refitDesk.ts';
import { isFree } from '../../donor/refitDesk.ts';
import { stretchNames } from '../../donor/words.ts';
import type { ShownModel } from '../../spine/protocol.ts';

/** A stretch that is shown as a band on the model. */
export interface ShownBand {
  /** Which of the spans it is; null for a place where a change left its trace. */
  readonly index: number | null;
  /** Its letter; empty for a trace. */
  readonly name: string;
  /** Levels on the axis, moved by whoever is at a stretch. */
  readonly from: number;
  readonly to: number;
  /** Which of the two tints: neighbours have different ones. */
  readonly tint: 0 | 1;
  readonly isChanged: boolean;
  /** It changes with a bore or post that would be no longer round. */
  readonly spoils: boolean;
  /** Somebody is at it. */
  readonly isAt: boolean;
}

/** Bands as they are, and how levels move while somebody pulls; undefined where nobody does. */
export interface ShownBands {
  readonly bands: readonly ShownBand[];
  /** What becomes longer or shorter by how much, and the same as a map of levels. */
  readonly takeUps: readonly TakeUp[];
  readonly map: LevelMap | undefined;
}

/** Pictures narrower than this have room for fewer letters, pixels. */
const NARROW = 460;

/** Letters of the stretches by their place, as many as a picture so many pixels wide has room for. */
export const namesIn = (model: ShownModel, width: number): ReadonlyMap<number, string> =>
  stretchNames(model.spans, width < NARROW ? 5 : 8);

/** Places of the stretches that have a handle: those that can change, of two that change together the first. */
export const handledIn = (model: ShownModel, width: number): readonly number[] =>
  [...namesIn(model, width).keys()].filter((k) => {
    const span = model.spans[k]!;
    return isFree(model, span) && (span.partner === null || span.partner >= k) && model.round.stretches[k];
  });

/** The bands of a model. `at`: the stretch somebody is at. */
export function shownBands(
  model: ShownModel,
  draft: Draft | null,
  at: number | null,
  width: number,
): ShownBands {
  const map = draft ? draftMap(model, draft, staysAt(model, draft.span)) : undefined;
  const moved = (level: number): number => level + (map?.shift(level) ?? 0);
  const names = namesIn(model, width);
  const partner = at === null ? null : (model.spans[at]?.partner ?? null);
  const stretches = [...names.keys()]
    .sort((a, b) => a - b)
    .map((index, n): ShownBand => {
      const { from, to, change, distorts } = model.spans[index]!;
      return {
        ...{ index, name: names.get(index)!, from: moved(from), to: moved(to) },
        ...{ tint: n % 2 === 0 ? 0 : 1, isChanged: change !== null, spoils: distorts.length > 0 },
        isAt: index === at || index === partner,
      };
    });
  return {
    bands: [...stretches, ...tracesIn(model, moved)],
    takeUps: map ? draftTakeUps(model, draft!) : [],
    map,
  };
}

/** Where changes that were made left a trace. */
function tracesIn(
  { changes, axes, shown }: ShownModel,
  moved: (level: number) => number,
): readonly ShownBand[] {
  const { axis } = axes[shown]!;
  return changes.flatMap((change): ShownBand[] => {
    const way = change.taken === null ? undefined : change.ways[change.taken];
    const isHere = axis.every((x, k) => Math.abs(x - change.axis[k]!) < 1e-9);
    if (!way || way.exact || !isHere) return [];
    return change.bands.map(({ from, to }) => ({
      ...{ index: null, name: '', from: moved(from), to: moved(to) },
      ...{ tint: 0, isChanged: true, spoils: true, isAt: false },
    }));
  });
}
