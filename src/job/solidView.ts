import { type CheckContext, withoutDoubt } from '../check/context.ts';
import { seatingShift } from '../check/seating.ts';
import { type Remembered, remembering } from '../remembered/remembered.ts';
import { type ManifoldToplevel, type Scope, withScope } from '../solid/kernel.ts';
import type { Mesh } from '../solid/mesh.ts';
import { meshOf } from '../solid/meshOf.ts';
import { inverse, matrix } from '../solid/placement.ts';
import { add, type Vec3 } from '../solid/vector.ts';
import { build } from './make.ts';
import { membersOf } from './members.ts';
import { plan } from './plan.ts';
import type { Prepared } from './prepare.ts';
import { type FitSurface, fitSurface } from './solidView/fitSurface.ts';
import { type Play, playsOf } from './solidView/plays.ts';

export type { FitSurface, GapsInPose, GapWanted } from './solidView/fitSurface.ts';
export type { Frame, Play } from './solidView/plays.ts';

/** What a picture in the round needs of one part beyond `ScenePart`, frame of the part, mm; plain data. */
export interface PartInTheRound {
  /** Empty when the job makes one part. */
  readonly id: string;
  /** The print that is expected, at rest in the machine. */
  readonly print: Mesh;
  /** How far it was moved to come to rest. */
  readonly seated: Vec3;
  /** The printer's layers, heights above the bed as they come out. */
  readonly layers: readonly { readonly top: number; readonly middle: number }[];
  readonly fit: FitSurface;
  readonly plays: readonly Play[];
}

/** What to show of the parts of a job in the round: the print that is expected, how near its surfaces come to the machine
 *  in every pose, layers, motion and routes. Throws `Refused` and `SolidProblem` as `make` does.
 *  @example solidView(kernel, prepared)[0].plays[0].frames.length // => 9 */
export const solidView = (
  kernel: ManifoldToplevel,
  prepared: Prepared,
  remembered?: Remembered,
): readonly PartInTheRound[] =>
  remembering(remembered, (known) =>
    membersOf(prepared).map(({ member, prepared: one }) =>
      withScope(kernel, (scope) => {
        const context = build(scope, one, plan(one, known), known);
        const { solid, predicted, hosts, poses, onBed } = context;
        const meetings = context.interfaces.map(withoutDoubt);
        const parts = hosts.map(({ part: { shape: _, ...part }, solid: host }) => ({ part, host }));
        const seen = known.of('in the round', { solid, predicted, parts, poses, onBed, meetings }, () =>
          restingPrint(scope, { ...context, interfaces: meetings }),
        );
        const { scale, firstLayerError } = context.printer;
        const height = (z: number): number => z * scale.z.value + firstLayerError.value;
        return {
          id: member.id,
          print: seen.print,
          seated: seen.seated,
          layers: context.layers.map(({ bottom, top }, k) => ({
            top: height(top),
            middle: k === 0 ? height(top) / 2 : (height(bottom) + height(top)) / 2,
          })),
          fit: seen.fit,
          plays: playsOf(context),
        };
      }),
    ),
  );

/** The print at rest in the machine, and its gaps. */
function restingPrint(scope: Scope, context: CheckContext): Pick<PartInTheRound, 'print' | 'seated' | 'fit'> {
  const back = inverse(context.onBed);
  const drawn = scope.keep(context.solid.transform(matrix(back)));
  const loose = scope.keep(context.predicted.transform(matrix(back)));
  const seated = seatingShift(context, drawn, loose);
  const print = meshOf(
    scope.keep(
      context.predicted.transform(matrix({ ...back, translation: add([...back.translation], seated) })),
    ),
  );
  const hosts = context.hosts.map(({ part, solid }) => ({ part, mesh: meshOf(solid) }));
  return { print, seated, fit: fitSurface(print, hosts, context.poses, context.interfaces) };
}
