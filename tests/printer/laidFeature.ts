import type { Lay } from '../../src/family/family.ts';
import type { Interface } from '../../src/family/interface.ts';
import { type Heights, heightsOf, sameHeights } from '../../src/job/heights.ts';
import { measurandOf } from '../../src/job/plan.ts';
import { drawnSize, predictedSize } from '../../src/printer/behaviour.ts';
import { isVertical } from '../../src/printer/measurand.ts';
import { predictedPrint } from '../../src/printer/predictedPrint.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import type { Manifold, Scope } from '../../src/solid/kernel.ts';
import { layersOf } from '../../src/solid/layers.ts';
import { lowest } from '../../src/solid/lowest.ts';
import { after, inverse, matrix, place, shift, turn } from '../../src/solid/placement.ts';
import { realise } from '../../src/solid/realise.ts';
import { declared, drawnFeature, type FeatureSpec } from './features.ts';

/** A feature drawn for a printer, laid on its bed and printed as predicted. */
export interface LaidFeature {
  readonly drawn: number;
  /** Size expected off the printer by formula, mm. */
  readonly planned: number;
  readonly solid: Manifold;
  readonly print: Manifold;
  /** Middle, axis and direction of the size, in the frame of the bed. */
  readonly where: Pick<Interface, 'id' | 'at' | 'axis' | 'across'>;
  /** How it is read: the axis up, or level and read up or across. */
  readonly reading: 'axis up' | 'read up' | 'read across';
}

const UP = [0, 0, 1] as const;

/** Draws a feature so that `target` mm come off the printer, as the plan does, and lays and prints it. */
export function laidFeature(
  scope: Scope,
  spec: FeatureSpec,
  target: number,
  lay: Lay,
  profile: PrinterProfile,
): LaidFeature {
  let drawn = target;
  let heights: Heights = {};
  for (let drawing = 0; drawing < 8; drawing++) {
    for (let round = 0; round < 20; round++)
      drawn = drawnSize(target, measurandOf(declared(spec, drawn), lay, profile, heights), profile);
    const found = heightsAt(spec, drawn, lay);
    if (sameHeights(found, heights)) break;
    heights = found;
  }
  const it = declared(spec, drawn);
  const measurand = measurandOf(it, lay, profile, heightsAt(spec, drawn, lay));
  const turned = scope.keep(realise(scope, drawnFeature(spec, drawn)).transform(matrix(lay.turn)));
  const { min } = turned.boundingBox();
  const home = after(shift([-min[0], -min[1], -min[2]]), lay.turn);
  const solid = scope.keep(turned.translate(-min[0], -min[1], -min[2]));
  const where = {
    id: it.id,
    at: place(home, it.at),
    axis: turn(home, it.axis),
    across: turn(home, it.across),
  };
  const upright = isVertical({ kind: 'step', direction: where.axis });
  return {
    drawn,
    planned: predictedSize(drawn, measurand, profile).value,
    solid,
    print: predictedPrint(scope, layersOf(scope, solid, profile.firstLayer, profile.layer), profile),
    where,
    reading: upright ? 'axis up' : isVertical(measurand) ? 'read up' : 'read across',
  };
}

function heightsAt(spec: FeatureSpec, drawn: number, lay: Lay): Heights {
  const bottom = lowest(drawnFeature(spec, drawn), turn(inverse(lay.turn), UP));
  return heightsOf([declared(spec, drawn)], { it: drawn }, lay, bottom);
}
