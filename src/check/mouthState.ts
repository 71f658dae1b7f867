import type { MouthLoad } from '../family/load.ts';
import type { Manifold } from '../solid/kernel.ts';
import { after, inverse, place, turn } from '../solid/placement.ts';
import { dot, type Placement, type Vec2, type Vec3 } from '../solid/vector.ts';
import { openMouth } from '../strength/openMouth.ts';
import { type SnapThroughResult, snapThrough } from '../strength/snapThrough.ts';
import type { CheckContext } from './context.ts';
import { loadFrame, mouthProfile, narrowestGap } from './mouthProfile.ts';

/** What the mouth of one solid, as drawn or as predicted, asks of its arms when the bar snaps through. */
export interface MouthState {
  /** Width of the mouth, mm. */
  readonly mouth: number;
  /** How far each lip gives way, mm; 0 when the bar passes freely. */
  readonly opening: number;
  /** Largest principal strain, fraction. */
  readonly strain: number;
  /** Where, in the frame of the bed, mm. */
  readonly at: Vec3;
  /** Force on each lip at full opening, N, and per mm of depth. */
  readonly lipForce: number;
  readonly lipForcePerDepth: number;
  readonly snap: SnapThroughResult;
  /** MPa and fraction, those reckoned with: along or across the layers as the part lies. */
  readonly modulus: number;
  readonly permissible: number;
}

export type MouthOutcome =
  | { readonly ok: true; readonly state: MouthState }
  | { readonly ok: false; readonly why: string };

/** Angle between the bar and the upright of the bed up to which the arms count as bending along the layers, degrees:
 *  beyond it a layer boundary runs through the arm within its own thickness. Common practice, no source. */
export const ALONG_LAYERS = 30;

/** Angle between the bar and the upright of the bed, degrees, 0 to 90. */
export function angleToLayers({ onBed }: Pick<CheckContext, 'onBed'>, { normal }: MouthLoad): number {
  const up = Math.min(1, Math.abs(dot(turn(onBed, normal), [0, 0, 1])));
  return (Math.acos(up) * 180) / Math.PI;
}

/** The mouth as drawn or as predicted. Several checks ask for it. */
export function mouthState(
  context: CheckContext,
  load: MouthLoad,
  which: 'drawn' | 'predicted',
): MouthOutcome {
  const { onBed, material, interfaces } = context;
  const solid = which === 'drawn' ? context.solid : context.predicted;
  const one = interfaces.find(({ id }) => id === load.interface);
  const hollow = (which === 'drawn' ? one?.drawn : one?.predicted) ?? load.bar;
  return context.known.of('mouth', { solid, onBed, material, load, hollow }, () =>
    solve(context, load, solid, hollow),
  );
}

function solve(
  { scope, onBed, material }: Pick<CheckContext, 'scope' | 'onBed' | 'material'>,
  load: MouthLoad,
  solid: Manifold,
  hollow: number,
): MouthOutcome {
  const bedToLoad: Placement = after(loadFrame(load), inverse(onBed));
  const contours = mouthProfile(scope, solid, bedToLoad);
  const lips = narrowestGap(contours, load.lips);
  if (!lips) return { ok: false, why: 'the mouth closes up: no gap is left between the lips' };
  const mouth = lips[1][0] - lips[0][0];
  const along = angleToLayers({ onBed }, load) <= ALONG_LAYERS;
  const modulus = (along ? material.modulusAlong : material.modulusAcross).value;
  const opening = Math.max(0, (load.bar - mouth) / 2);
  // Solved for a unit of opening where none is needed, so that the stiffness is there; it is linear.
  const asked = opening > 0 ? opening : 0.01;
  const solved = openMouth({
    contours,
    lips: lips as [Vec2, Vec2],
    openEachSide: asked,
    modulus,
    poisson: material.poisson.value,
    fixedAbove: load.heldFrom,
  });
  if (!solved.ok) return { ok: false, why: solved.problem.sentence };
  const snap = snapThrough({
    barDiameter: load.bar,
    mouth,
    flareAngle: load.flare,
    flareWidth: Math.max(mouth, load.entry + (mouth - (load.lips[1][0] - load.lips[0][0]))),
    boreDiameter: Math.max(mouth, hollow),
    stiffness: solved.stiffness * load.depth,
    friction: material.frictionOnSteel.value,
  });
  const share = opening / asked;
  const at = place(inverse(bedToLoad), [...solved.strainAt, 0]);
  return {
    ok: true,
    state: {
      mouth,
      opening,
      strain: solved.strain * share,
      at,
      lipForce: solved.force * share * load.depth,
      lipForcePerDepth: solved.force * share,
      snap,
      modulus,
      permissible: (along ? material.permissible.onceAlong : material.permissible.onceAcross).value,
    },
  };
}
