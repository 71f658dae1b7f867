import type { Lay } from '../family/family.ts';
import type { Interface } from '../family/interface.ts';
import type { Values } from '../family/values.ts';
import type { Contributor } from '../measure/types.ts';
import type { PredictedSize } from '../printer/behaviour.ts';
import { calibrationDoubts } from '../printer/calibrationDoubts.ts';
import { isVertical, type Measurand } from '../printer/measurand.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { turn } from '../solid/placement.ts';
import type { Heights } from './heights.ts';
import type { Prepared } from './prepare.ts';

/** Hollow features are loose when printed large, solid ones when printed small. */
export const senseOf = (kind: Interface['kind']): 1 | -1 => (kind === 'post' || kind === 'rib' ? -1 : 1);

/** What one unit of a cause's error does to a clearance. A cause that several sizes share acts on each by its own u. */
export interface CauseEffect {
  readonly cause: Contributor;
  readonly by: number;
}

/** What the printer leaves open of a clearance: its causes of doubt as `calibrationDoubts` finds them. */
export function printCauses(
  { kind }: Pick<Interface, 'kind'>,
  printed: PredictedSize,
  { printer, callipers }: Pick<Prepared, 'printer' | 'callipers'>,
): readonly CauseEffect[] {
  const { contributors, sensitivity } = calibrationDoubts(printed, printer, callipers.name);
  return contributors.map((cause) => ({ cause, by: senseOf(kind) * (sensitivity[cause.id] ?? 0) }));
}

/** What the readings of the machine leave open of a clearance. `slopes`: change of the machine's size with each reading. */
export const machineCauses = (
  { kind }: Pick<Interface, 'kind'>,
  slopes: readonly (readonly [string, number])[],
  { dimensions }: Pick<Prepared, 'dimensions'>,
): readonly CauseEffect[] =>
  slopes.flatMap(([reading, slope]) =>
    dimensions[reading]!.contributors.map((cause) => ({ cause, by: -senseOf(kind) * slope })),
  );

/** How an interface stands on the bed.
 *  A hollow whose axis lies level is no hole in any layer: its walls are the ends of the outlines on either side of it
 *  and move as outer faces do, its floor lies somewhere above the first layer, and its roof hangs. */
export function measurandOf(
  { id, kind, axis, across, hydraulic, centres }: Interface,
  lay: Lay,
  { firstLayer }: Pick<PrinterProfile, 'firstLayer'>,
  heights: Heights,
): Measurand {
  const direction = turn(lay.turn, across);
  const hollow = kind === 'bore' || kind === 'slot';
  const height = heights[id] ?? {};
  if (hollow && !isVertical({ kind, direction: turn(lay.turn, axis) })) {
    const faces = { outer: -2, inner: 0 };
    return { kind: 'step', direction, faces, lowerFace: firstLayer, roof: true, ...height };
  }
  if (centres) return { kind, direction, faces: { outer: 0, inner: 0 }, ...height };
  return hydraulic === undefined
    ? { kind, direction, ...height }
    : { kind, direction, hydraulic: () => hydraulic, ...height };
}

/** Change of each interface's host size with each reading, by central differences one standard uncertainty wide: the
 *  family gives plain formulas, and this is what JCGM 100 (5.1.3, note 2) does where no derivative is at hand. */
export function hostSensitivities({
  family,
  values,
  dimensions,
}: Prepared): (id: string) => readonly (readonly [string, number])[] {
  const byInterface = new Map<string, [string, number][]>();
  for (const { id: reading, value, u } of Object.values(dimensions)) {
    const reach = Math.max(u, 1e-4);
    const hosts = (by: number): Interface[] => [
      ...family.interfaces({ ...values, [reading]: value + by } as Values, {}),
    ];
    const [above, below] = [hosts(reach), hosts(-reach)];
    above.forEach((one, k) => {
      const slope = (one.host - below[k]!.host) / (2 * reach);
      if (!Number.isFinite(slope) || slope === 0) return;
      byInterface.set(one.id, [...(byInterface.get(one.id) ?? []), [reading, slope]]);
    });
  }
  return (id) => byInterface.get(id) ?? [];
}
