import { dot, type Vec3 } from '../../solid/vector.ts';
import type { LevelMap } from './levelMap.ts';

/** A round bore or post, or whatever else has a name and should know what happens to it. */
export interface NamedFeature {
  readonly id: string;
  /** Its middle. */
  readonly at: Readonly<Vec3>;
  /** Unit vector along it. */
  readonly axis: Readonly<Vec3>;
  /** Across its axis and along it. */
  readonly diameter: number;
  readonly depth: number;
}

/** What a re-spacing does to a named feature. */
export interface FeatureChange {
  readonly id: string;
  /** `longer`: only its depth changes, by `by`. `distorted`: it is no longer round, or no longer straight. */
  readonly kind: 'longer' | 'distorted';
  /** How much it grows along the axis of the change; below 0 when it shrinks. */
  readonly by: number;
}

/** Levels between which a feature lies on an axis: of a cylinder at any slant.
 *  @example stretchOf({ id: 'bore', at: [0, 0, 5], axis: [1, 0, 0], diameter: 2, depth: 9 }, [0, 0, 1]) // => [4, 6] */
export function stretchOf(
  { at, axis, diameter, depth }: NamedFeature,
  along: Readonly<Vec3>,
): readonly [number, number] {
  const cosine = Math.min(1, Math.abs(dot(axis, along)));
  const half = (cosine * depth + Math.sqrt(1 - cosine * cosine) * diameter) / 2;
  const middle = dot(at, along);
  return [middle - half, middle + half];
}

/** Cosine of 1 degree: a feature that runs along the change only changes its depth. */
const ALONG = Math.cos(Math.PI / 180);

/** Changes smaller than this are none. */
const NOTHING = 1e-9;

/** What the map does to each feature that it changes. */
export function featureChanges(
  features: readonly NamedFeature[],
  axis: Readonly<Vec3>,
  map: LevelMap,
): readonly FeatureChange[] {
  return features.flatMap((feature): FeatureChange[] => {
    const [from, to] = stretchOf(feature, axis);
    const by = map.shift(to) - map.shift(from);
    if (Math.abs(by) <= NOTHING) return [];
    const along = Math.abs(dot(feature.axis, axis)) >= ALONG;
    return [{ id: feature.id, kind: along ? 'longer' : 'distorted', by }];
  });
}
