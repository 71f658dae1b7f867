import { gentlestRoute } from '../check/assembly.ts';
import type { CheckContext } from '../check/context.ts';
import type { Finding } from '../check/finding.ts';
import { checks } from '../check/index.ts';
import type { Route } from '../family/load.ts';
import type { FitChance } from '../fit/types.ts';
import { bedRelief } from '../printer/bedRelief.ts';
import { bytesOf, realisedOnce } from '../remembered/realisedOnce.ts';
import { Remembered, remembering } from '../remembered/remembered.ts';
import { type Manifold, type ManifoldToplevel, type Scope, withScope } from '../solid/kernel.ts';
import type { Mesh } from '../solid/mesh.ts';
import { meshOf } from '../solid/meshOf.ts';
import { after, matrix, place, shift, turn } from '../solid/placement.ts';
import { SolidProblem } from '../solid/realise.ts';
import type { Placement, Vec3 } from '../solid/vector.ts';
import { printingCautions } from '../standards/printingCautions.ts';
import { chanceOnce } from './chanceOf.ts';
import { jobHash } from './jobHash.ts';
import { idOf, type MemberJob, membersOf, nameOf, together } from './members.ts';
import { nextStep } from './nextSteps.ts';
import { type Plan, plan } from './plan.ts';
import type { Prepared } from './prepare.ts';
import { layersOnce, predictedOnce } from './printedOnce.ts';
import type { MakeResult, ReportedInterface, ReportedPrint } from './result.ts';
import { nothingToDraw } from './shapeOf.ts';
import { whatChanged } from './trial/whatChanged.ts';

/** The spine: readings to dimensions to plan to shape to solid to findings. Pure: the same job gives the same result,
 *  and nothing in wasm memory outlives the call but what is in `remembered`, which spares whoever makes nearly the same job
 *  again what has not changed. Throws `SolidProblem` when the shape is no solid. */
export const make = (kernel: ManifoldToplevel, prepared: Prepared, remembered?: Remembered): MakeResult =>
  remembering(remembered, (known) => {
    const parts = membersOf(prepared).map((one) => ({ ...one, planned: plan(one.prepared, known) }));
    return report(
      prepared,
      parts.map((one) => ({ ...one, ...made(kernel, one, known) })),
      known,
    );
  });

interface PlannedPart extends MemberJob {
  readonly planned: Plan;
}

/** A part that was built and judged; plain data. */
interface JudgedPart extends PlannedPart {
  readonly onBed: Placement;
  readonly findings: readonly Finding[];
  readonly route: Route | null;
  readonly print: ReportedPrint;
  readonly mesh: Mesh;
}

/** Builds one part and judges it; its solids are gone afterwards. */
function made(
  kernel: ManifoldToplevel,
  { prepared, planned }: PlannedPart,
  known: Remembered,
): Omit<JudgedPart, keyof PlannedPart> {
  return withScope(kernel, (scope) => {
    const context = build(scope, prepared, planned, known);
    const { solid, layers, onBed, material, printer } = context;
    const mesh = known.of('mesh', solid, () => meshOf(solid));
    const volume = solid.volume();
    return {
      onBed,
      mesh,
      findings: checks.flatMap((check) => check(context)),
      route: gentlestRoute(context),
      print: {
        lay: planned.lay.name,
        volume,
        mass: (volume / 1000) * material.density.value,
        layers: layers.length,
        layer: printer.layer,
        extents: [...solid.boundingBox().max] as Vec3,
        triangles: mesh.triangles.length / 3,
      },
    };
  });
}

/** What realises a part; that nothing is left of it is a problem of the job. Throws `Refused`. */
function solidOf(job: Prepared['job'], realised: () => Manifold): Manifold {
  try {
    return realised();
  } catch (error) {
    if (!(error instanceof SolidProblem) || error.status !== 'Empty') throw error;
    throw nothingToDraw(job, 'hollows take all of the part');
  }
}

/** Draws the part and lays it on the bed, lowest corner of its box at the origin, its first layer relieved of what it
 *  will spread. `turned` is the part as the family draws it, before the shift. */
export function layOnBed(
  scope: Scope,
  { job, family, printer }: Pick<Prepared, 'job' | 'family' | 'printer'>,
  { lay, shape }: Pick<Plan, 'lay' | 'shape'>,
  known: Remembered = ownMemory(scope),
): LaidPart {
  const drawn = solidOf(job, () => realisedOnce(known, scope, shape));
  const { relieved } = family;
  const { firstLayer, firstLayerSpread } = printer;
  const from = { drawn, turn: lay.turn, ...(relieved && { firstLayer, spread: firstLayerSpread.value }) };
  return known.held(
    scope,
    'laid',
    from,
    (own) => {
      const turned = own.keep(drawn.transform(matrix(lay.turn)));
      const { min } = turned.boundingBox();
      const home = shift([-min[0], -min[1], -min[2]]);
      const flat = own.keep(turned.transform(matrix(home)));
      const solid = relieved ? bedRelief(own, flat, printer).solid : flat;
      return { solid, turned, home, onBed: after(home, lay.turn) };
    },
    // Not read off the result: that would work out moves that are still to be joined with others.
    () => 2 * bytesOf(drawn),
  );
}

/** A part as it lies on the bed; handles belong to what they were asked for with. */
export interface LaidPart {
  readonly solid: Manifold;
  /** Turned as it lies, and the shift that brings it onto the bed. */
  readonly turned: Manifold;
  readonly home: Placement;
  readonly onBed: Placement;
}

/** A memory that lasts as long as the scope. */
function ownMemory(scope: Scope): Remembered {
  const known = new Remembered(Number.POSITIVE_INFINITY);
  scope.keep({ delete: () => known.forget() });
  return known;
}

/** Lays the part on the bed and predicts the print. The context belongs to the scope. */
export function build(
  scope: Scope,
  prepared: Prepared,
  planned: Plan,
  known: Remembered = ownMemory(scope),
): CheckContext {
  const { family, values, printer, dimensions, material, temperature } = prepared;
  const { drawn, interfaces } = planned;
  const { solid, onBed } = layOnBed(scope, prepared, planned, known);
  const layers = layersOnce(known, scope, solid, printer);
  return {
    scope,
    known,
    family,
    values,
    dimensions,
    material,
    printer,
    temperature,
    onBed,
    solid,
    layers,
    predicted: predictedOnce(known, scope, layers, printer),
    interfaces,
    prints: planned.prints,
    hosts: family.host(values).map((part) => ({ part, solid: realisedOnce(known, scope, part.shape) })),
    poses: family.motion(values),
    loads: family.loads(values, drawn),
    routes: family.assembly(values),
  };
}

const SEVERITY = { fails: 0, caution: 1, holds: 2 } as const;
const bySeverity = (a: Finding, b: Finding): number => SEVERITY[a.verdict] - SEVERITY[b.verdict];

function report(prepared: Prepared, parts: readonly JudgedPart[], known: Remembered): MakeResult {
  const { job, family, printer, material } = prepared;
  const chance = setChance(parts, known);
  const cautions = parts.flatMap((one) => family.cautions(one.prepared.values));
  const route = parts[0]!.route;
  const changed = whatChanged(prepared, known);
  const changes = family.changes(prepared.values, parts[0]!.planned.drawn);
  return {
    job: {
      family: family.id,
      title: job.title ?? family.title,
      quantity: job.quantity,
      material: material.name,
      printer: printer.name,
      calibrated: printer.calibrated,
      hash: jobHash(job, family.model),
    },
    dimensions: prepared.dimensions,
    interfaces: parts.flatMap((part) => reportedInterfaces(part, chance)),
    chance: Number.isNaN(chance.part) ? null : chance.part,
    shares: chance.partShares,
    advice: nextStep(prepared, parts, chance, known),
    findings: findingsOf(parts).sort(bySeverity),
    assembly: route && {
      id: route.id,
      name: route.name,
      steps: route.steps.map(({ sentence }) => sentence),
    },
    ...(changes.length > 0 && { changes }),
    ...(changed.length > 0 && { changed }),
    cautions: [...new Set([...cautions, `${material.name} ${printingCautions[material.name]}`])],
    print: allPrints(parts.map(({ print }) => print)),
    parts: parts.map(({ member: { id, name }, print, mesh }) => ({ id, name, print, mesh })),
  };
}

/** Chance that all parts fit. */
const setChance = (parts: readonly PlannedPart[], known: Remembered): FitChance =>
  parts.length === 1
    ? parts[0]!.planned.chance
    : chanceOnce(together(parts.map(({ member, planned: { problem } }) => ({ member, problem }))), known);

function reportedInterfaces(
  { member, planned, onBed }: JudgedPart,
  { shares }: FitChance,
): ReportedInterface[] {
  return planned.interfaces.map((one) => {
    const id = idOf(member, one.id);
    return {
      id,
      name: nameOf(member, one.name),
      kind: one.kind,
      at: place(onBed, one.at),
      axis: turn(onBed, one.axis),
      across: turn(onBed, one.across),
      length: one.length,
      host: one.host,
      drawn: one.drawn,
      predicted: one.predicted,
      clearance: one.clearance,
      u: one.u,
      window: [one.window.lo, one.window.hi],
      chance: one.chance,
      shares: shares[id]!,
    };
  });
}

/** The findings of all parts. What is said of every part in the same words, such as how the machine stands on them all,
 *  is said once. */
function findingsOf(parts: readonly JudgedPart[]): Finding[] {
  const [first, ...others] = parts;
  const words = ({ id, because }: Finding): string => `${id}: ${because}`;
  const shared = new Set(
    others.length === 0
      ? []
      : first!.findings
          .map(words)
          .filter((said) => others.every(({ findings }) => findings.some((one) => words(one) === said))),
  );
  return parts.flatMap((part, k) =>
    part.findings.flatMap((finding) => {
      if (shared.has(words(finding))) return k === 0 ? [finding] : [];
      const { member } = part;
      return [{ ...finding, id: idOf(member, finding.id), title: nameOf(member, finding.title) }];
    }),
  );
}

function allPrints(prints: readonly ReportedPrint[]): ReportedPrint {
  const sum = (of: (print: ReportedPrint) => number) => prints.reduce((total, print) => total + of(print), 0);
  const most = (of: (print: ReportedPrint) => number) => Math.max(...prints.map(of));
  return {
    lay: prints[0]!.lay,
    volume: sum(({ volume }) => volume),
    mass: sum(({ mass }) => mass),
    layers: most(({ layers }) => layers),
    layer: prints[0]!.layer,
    extents: [0, 1, 2].map((k) => most(({ extents }) => extents[k]!)) as unknown as Vec3,
    triangles: sum(({ triangles }) => triangles),
  };
}
