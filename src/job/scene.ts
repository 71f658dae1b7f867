import { realisedOnce } from '../remembered/realisedOnce.ts';
import { type Remembered, remembering } from '../remembered/remembered.ts';
import { type Manifold, type ManifoldToplevel, type Scope, withScope } from '../solid/kernel.ts';
import type { Mesh } from '../solid/mesh.ts';
import { meshOf } from '../solid/meshOf.ts';
import { inverse, matrix } from '../solid/placement.ts';
import type { Placement } from '../solid/vector.ts';
import { type LaidPart, layOnBed } from './make.ts';
import { idOf, membersOf } from './members.ts';
import { plan } from './plan.ts';
import type { Prepared } from './prepare.ts';
import type { ReportedInterface } from './result.ts';

/** One part among the machine it belongs to, everything in the frame of the part as the family draws it: x along it, y
 *  across it, z up. Plain data, for pictures and drawings. */
export interface ScenePart {
  /** Empty when the job makes one part. */
  readonly id: string;
  readonly name: string;
  readonly mesh: Mesh;
  /** The same without the relief of its first layer, which the print fills again: as the part is meant to be. */
  readonly unrelieved: Mesh;
  /** Solids of the machine around it. */
  readonly hosts: readonly { readonly id: string; readonly name: string; readonly mesh: Mesh }[];
  /** From the frame of the part to the coordinates of its STL. */
  readonly onBed: Placement;
  /** Where part and machine meet, ids as in the result. */
  readonly interfaces: readonly (Pick<
    ReportedInterface,
    'id' | 'name' | 'kind' | 'at' | 'axis' | 'across' | 'length' | 'host' | 'drawn' | 'predicted' | 'window'
  > & {
    /** Diameter where it is round, mm. */
    readonly round: number | null;
  })[];
}

/** The parts of a job as they sit in the machine. Throws `Refused` and `SolidProblem` as `make` does, and takes what that found
 *  from the same memory. */
export const sceneOf = (
  kernel: ManifoldToplevel,
  prepared: Prepared,
  remembered?: Remembered,
): readonly ScenePart[] =>
  remembering(remembered, (known) =>
    membersOf(prepared).map(({ member, prepared: one }) => {
      const planned = plan(one, known);
      return withScope(kernel, (scope) => {
        const laid = layOnBed(scope, one, planned, known);
        const { solid, onBed } = laid;
        const mesh = (part: Manifold): Mesh => known.of('mesh', part, () => meshOf(part));
        return {
          id: member.id,
          name: member.name,
          mesh: known.of('mesh in place', { solid, onBed }, () =>
            meshOf(scope.keep(shifted(scope, one, laid).transform(matrix(inverse(onBed))))),
          ),
          unrelieved: mesh(realisedOnce(known, scope, planned.shape)),
          hosts: one.family
            .host(one.values)
            .map(({ id, name, shape }) => ({ id, name, mesh: mesh(realisedOnce(known, scope, shape)) })),
          onBed,
          interfaces: planned.interfaces.map((each) => ({
            id: idOf(member, each.id),
            name: each.name,
            kind: each.kind,
            at: each.at,
            axis: each.axis,
            across: each.across,
            length: each.length,
            host: each.host,
            drawn: each.drawn,
            predicted: each.predicted,
            window: [each.window.lo, each.window.hi] as const,
            round: each.round ?? (each.kind === 'bore' && each.hydraulic === undefined ? each.drawn : null),
          })),
        };
      });
    }),
  );

/** The part on its bed. One that was only turned and shifted is shifted anew: moves that follow each other are joined into one, but for those
 *  that somebody looked at in between, and then the last digits would hang on whether somebody did. */
const shifted = (scope: Scope, { family }: Prepared, { solid, turned, home }: LaidPart): Manifold =>
  family.relieved ? solid : scope.keep(turned.transform(matrix(home)));
