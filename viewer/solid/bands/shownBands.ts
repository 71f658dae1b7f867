import type { LevelMap, TakeUp } from '../../../src/donor/respace/levelMap.ts';
import { draftMap, draftTakeUps } from '../../donor/layAlong.ts';
import { staysAt } from '../../donor/pulledEnd.ts';
import type { Draft } from '../../donor/refitDesk.ts';
import { isFree } from '../../donor/refitDesk.ts';
import { type LitWay, tracedBands } from '../../donor/tracedBands.ts';
import { stretchNames } from '../../donor/words.ts';
import type { ShownModel } from '../../spine/answers.ts';

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

/** What somebody is at: a stretch that is pulled, the one they were at last, a way that they point at. */
export interface HandsOn {
  readonly draft: Draft | null;
  readonly at: number | null;
  readonly lit: LitWay | null;
}

/** The bands of a model, in a picture so many pixels wide. */
export function shownBands(model: ShownModel, { draft, at, lit }: HandsOn, width: number): ShownBands {
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
  const traces = tracedBands(model, lit).map(
    ({ from, to, way }): ShownBand => ({
      ...{ index: null, name: '', from: moved(from), to: moved(to) },
      ...{ tint: 0, isChanged: true, spoils: true, isAt: way !== null },
    }),
  );
  return {
    bands: [...stretches, ...traces],
    takeUps: map ? draftTakeUps(model, draft!) : [],
    map,
  };
}
