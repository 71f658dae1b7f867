import { gentlestRoute } from '../check/assembly.ts';
import type { CheckContext } from '../check/context.ts';
import type { Finding } from '../check/finding.ts';
import { checks } from '../check/index.ts';
import { bedRelief } from '../printer/bedRelief.ts';
import { predictedPrint } from '../printer/predictedPrint.ts';
import { type Manifold, type ManifoldToplevel, type Scope, withScope } from '../solid/kernel.ts';
import { layersOf } from '../solid/layers.ts';
import { meshOf } from '../solid/mesh.ts';
import { after, matrix, place, shift, turn } from '../solid/placement.ts';
import { realise } from '../solid/realise.ts';
import type { Placement, Vec3 } from '../solid/vector.ts';
import { printingCautions } from '../standards/printingCautions.ts';
import { canonical, sha256Hex } from './hash.ts';
import { nextStep } from './nextSteps.ts';
import { type Plan, plan } from './plan.ts';
import type { Prepared } from './prepare.ts';
import type { MakeResult } from './result.ts';
import { FETTLE_VERSION } from './version.ts';

/** The spine: readings to dimensions to plan to shape to solid to findings. Pure: the same job gives the same result,
 *  and nothing in wasm memory outlives the call. Throws `SolidProblem` when the shape is no solid. */
export function make(kernel: ManifoldToplevel, prepared: Prepared): MakeResult {
  const planned = plan(prepared);
  return withScope(kernel, (scope) => {
    const context = build(scope, prepared, planned);
    const findings = checks.flatMap((check) => check(context)).sort(bySeverity);
    return report(prepared, planned, context, findings);
  });
}

/** Draws the part and lays it on the bed, lowest corner of its box at the origin, its first layer relieved of what it
 *  will spread. `turned` is the part as the family draws it, before the shift. */
export function layOnBed(
  scope: Scope,
  prepared: Prepared,
  { lay, shape }: Pick<Plan, 'lay' | 'shape'>,
): { readonly solid: Manifold; readonly turned: Manifold; readonly onBed: Placement } {
  const turned = scope.keep(realise(scope, shape).transform(matrix(lay.turn)));
  const { min } = turned.boundingBox();
  const home = shift([-min[0], -min[1], -min[2]]);
  const flat = scope.keep(turned.transform(matrix(home)));
  return { solid: bedRelief(scope, flat, prepared.printer).solid, turned, onBed: after(home, lay.turn) };
}

/** Lays the part on the bed and predicts the print. The context belongs to the scope. */
export function build(scope: Scope, prepared: Prepared, planned: Plan): CheckContext {
  const { family, values, printer, dimensions, material, temperature } = prepared;
  const { drawn, interfaces } = planned;
  const { solid, onBed } = layOnBed(scope, prepared, planned);
  const layers = layersOf(scope, solid, printer.firstLayer, printer.layer);
  return {
    scope,
    family,
    values,
    dimensions,
    material,
    printer,
    temperature,
    onBed,
    solid,
    layers,
    predicted: predictedPrint(scope, layers, printer),
    interfaces,
    prints: planned.prints,
    hosts: family.host(values).map((part) => ({ part, solid: realise(scope, part.shape) })),
    poses: family.motion(values),
    loads: family.loads(values, drawn),
    routes: family.assembly(values),
  };
}

const SEVERITY = { fails: 0, caution: 1, holds: 2 } as const;
const bySeverity = (a: Finding, b: Finding): number => SEVERITY[a.verdict] - SEVERITY[b.verdict];

function report(
  prepared: Prepared,
  planned: Plan,
  context: CheckContext,
  findings: readonly Finding[],
): MakeResult {
  const { job, family, printer, material } = prepared;
  const mesh = meshOf(context.solid);
  const volume = context.solid.volume();
  const { max } = context.solid.boundingBox();
  const route = gentlestRoute(context);
  return {
    job: {
      family: family.id,
      title: job.title ?? family.title,
      quantity: job.quantity,
      material: material.name,
      printer: printer.name,
      calibrated: printer.calibrated,
      hash: sha256Hex(canonical({ job, version: FETTLE_VERSION })),
    },
    dimensions: prepared.dimensions,
    interfaces: planned.interfaces.map((one) => ({
      id: one.id,
      name: one.name,
      kind: one.kind,
      at: place(context.onBed, one.at),
      axis: turn(context.onBed, one.axis),
      across: turn(context.onBed, one.across),
      length: one.length,
      host: one.host,
      drawn: one.drawn,
      predicted: one.predicted,
      clearance: one.clearance,
      u: one.u,
      window: [one.window.lo, one.window.hi],
      chance: one.chance,
      shares: planned.chance.shares[one.id]!,
    })),
    chance: planned.chance.part,
    shares: planned.chance.partShares,
    advice: nextStep(prepared, planned),
    findings,
    assembly: route && {
      id: route.id,
      name: route.name,
      steps: route.steps.map(({ sentence }) => sentence),
    },
    cautions: [...family.cautions(prepared.values), `${material.name} ${printingCautions[material.name]}`],
    print: {
      lay: planned.lay.name,
      volume,
      mass: (volume / 1000) * material.density.value,
      layers: context.layers.length,
      layer: printer.layer,
      extents: [...max] as Vec3,
      triangles: mesh.triangles.length / 3,
    },
    mesh,
  };
}
