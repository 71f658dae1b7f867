import type { Arc, Bore, Pocket, Post, RoundFeatures } from './features/types.ts';
import { type DonorMesh, type LengthUnit, millimetresIn } from './types.ts';

/** A mesh with its lengths in mm. */
export function meshInMillimetres(mesh: DonorMesh, unit: LengthUnit): DonorMesh {
  const factor = millimetresIn[unit];
  return factor === 1 ? mesh : { ...mesh, positions: mesh.positions.map((x) => x * factor) };
}

/** Features with their lengths in mm. */
export function featuresInMillimetres(features: RoundFeatures, unit: LengthUnit): RoundFeatures {
  const factor = millimetresIn[unit];
  if (factor === 1) return features;
  const round = <T extends Bore | Post | Arc>(one: T): T => ({
    ...one,
    at: one.at.map((x) => x * factor),
    inscribed: one.inscribed * factor,
    circumscribed: one.circumscribed * factor,
    diameter: one.diameter * factor,
    uncertainty: one.uncertainty * factor,
    ...('depth' in one && { depth: one.depth * factor }),
    ...('length' in one && { length: one.length * factor }),
  });
  const pocket = (one: Pocket): Pocket => ({
    ...one,
    at: [one.at[0] * factor, one.at[1] * factor, one.at[2] * factor],
    width: one.width * factor,
    length: one.length * factor,
    depth: one.depth * factor,
  });
  return {
    bores: features.bores.map(round),
    posts: features.posts.map(round),
    arcs: features.arcs.map(round),
    pockets: features.pockets.map(pocket),
  };
}
