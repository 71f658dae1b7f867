import type { HostPart, Pose } from '../family/machine.ts';
import { type Manifold, type Scope, withScope } from '../solid/kernel.ts';
import { meshOf } from '../solid/meshOf.ts';
import { identity, inverse, matrix, place } from '../solid/placement.ts';
import { add, lengthOf, type Placement, subtract, times, type Vec3 } from '../solid/vector.ts';
import { formatLength, formatNumber } from '../units/index.ts';
import { type Check, type CheckContext, type PlannedInterface, withoutDoubt } from './context.ts';
import type { Finding, Verdict } from './finding.ts';
import { overlapDepth } from './overlapDepth.ts';
import { seatingShift } from './seating.ts';

/** Gaps are looked for this much further than the gap wanted, mm. What stays further away is only said to: looking
 *  three times as far takes three times as long. */
const LOOK_BEYOND = 0.5;
/** Overlap shallower than this is rounding of faces that touch, mm. */
const TOUCH = 1e-3;

/** Motion clearance: least gap between the part and each host over the whole motion, mm, negative where they overlap;
 *  twice for each host, for the part as drawn and for the predicted print.
 *
 *  The predicted print is first brought to rest against its seat (`seatingShift`). Contact with a seat is no clash.
 *  Where a host meets the part at an interface, overlap up to half of what the interface's window allows a side passes
 *  (a press fit); as drawn, up to half of what its drawn size makes, and by how far features are drawn apart, because
 *  that is undone by printing. The interface is the one whose middle is nearest to the overlap. How deep an overlap is:
 *  `overlapDepth`.
 *
 *  `fails` on overlap beyond that, or on contact where a gap is wanted; `caution` on a gap below the one wanted. */
export const motionClearance: Check = (context) =>
  withScope(context.scope.kernel, (scope) => {
    const off = offSeats(context);
    const drawn = variantOf(context, scope, 'drawn', [0, 0, 0], off);
    const loose = variantOf(context, scope, 'predicted', [0, 0, 0], off);
    const seated = restOf(context, () => seatingShift(context, drawn.placed().solid, loose.placed().solid));
    const variants = [drawn, variantOf(context, scope, 'predicted', seated, off)];
    return context.hosts.flatMap((host) => {
      const places = placesOf(context.poses, host.part.id);
      const positions = once(() => positionsOf(places, scope, host));
      return variants.map((variant) => gapFinding(context, scope, host, places, positions, variant));
    });
  });

/** The shift that seats the print, which hangs on nothing but geometry. */
const restOf = (
  { known, solid, predicted, onBed, hosts, poses, interfaces }: CheckContext,
  find: () => Vec3,
): Vec3 => {
  const parts = hosts.map(({ part: { shape: _, ...part }, solid: host }) => ({ part, host }));
  const meetings = interfaces.map(withoutDoubt);
  return known.of('seating', { solid, predicted, onBed, parts, poses, meetings }, find);
};

/** Works it out when it is asked for, once. */
function once<T>(work: () => T): () => T {
  let done: { readonly value: T } | undefined;
  return () => {
    done ??= { value: work() };
    return done.value;
  };
}

/** Parts are held off their seats by this much, mm, so that rounding there makes no film of overlap. */
const SEAT_CLEARANCE = 1e-4;

const offSeats = ({ hosts }: CheckContext): Vec3 =>
  hosts.reduce<Vec3>(
    (sum, { part }) => (part.seat === undefined ? sum : subtract(sum, times(part.seat, SEAT_CLEARANCE))),
    [0, 0, 0],
  );

type Host = CheckContext['hosts'][number];

interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

interface Variant {
  readonly state: 'drawn' | 'predicted';
  /** On the bed, and how it comes into the frame of the part from there. */
  readonly source: Manifold;
  readonly placement: Placement;
  /** Shift by which it was seated. */
  readonly seated: Vec3;
  readonly placed: () => { readonly solid: Manifold; readonly box: Box };
}

function variantOf(
  context: CheckContext,
  scope: Scope,
  state: Variant['state'],
  seated: Vec3,
  off: Vec3,
): Variant {
  const back = inverse(context.onBed);
  const source = state === 'drawn' ? context.solid : context.predicted;
  const placement = { ...back, translation: add([...back.translation], add(off, seated)) };
  const placed = once(() => {
    const solid = scope.keep(source.transform(matrix(placement)));
    return { solid, box: boxOf(solid) };
  });
  return { state, source, placement, seated, placed };
}

/** A place where a host stands during the motion, with the first pose that puts it there. */
interface Place {
  readonly pose: string;
  readonly placement: Placement;
}

interface Position {
  readonly pose: string;
  readonly solid: Manifold;
  readonly box: Box;
}

/** Each distinct place of a host once: most hosts stand still while others move. */
function placesOf(poses: readonly Pose[], id: string): Place[] {
  const found = new Map<string, Place>();
  for (const { name, placements } of poses.length > 0 ? poses : [{ name: 'at rest', placements: {} }]) {
    const placement: Placement = placements[id] ?? identity;
    const key = keyOf(placement);
    if (!found.has(key)) found.set(key, { pose: name, placement });
  }
  return [...found.values()];
}

const keyOf = ({ rotation, translation }: Placement): string => [...rotation, ...translation].join();

/** Turned copies are lazy, so one that turns out to be far away costs nothing. */
function positionsOf(places: readonly Place[], scope: Scope, { solid }: Host): Position[] {
  const own = boxOf(solid);
  const still = keyOf(identity);
  return places.map(({ pose, placement }) =>
    keyOf(placement) === still
      ? { pose, solid, box: own }
      : { pose, solid: scope.keep(solid.transform(matrix(placement))), box: placedBox(own, placement) },
  );
}

function boxOf(solid: Manifold): Box {
  const { min, max } = solid.boundingBox();
  return { min: [...min], max: [...max] };
}

/** Box around a turned box: at least as large as the box of what is in it. */
function placedBox({ min, max }: Box, placement: Placement): Box {
  const corners = [min[0], max[0]].flatMap((x) =>
    [min[1], max[1]].flatMap((y) => [min[2], max[2]].map((z) => place(placement, [x, y, z]))),
  );
  const along = (pick: (...values: number[]) => number): Vec3 => [
    pick(...corners.map((p) => p[0])),
    pick(...corners.map((p) => p[1])),
    pick(...corners.map((p) => p[2])),
  ];
  return { min: along(Math.min), max: along(Math.max) };
}

/** Distance between two boxes; 0 when they touch or overlap. Never more than that of what is in them. */
const boxGap = (a: Box, b: Box): number =>
  Math.hypot(...([0, 1, 2] as const).map((k) => Math.max(0, a.min[k] - b.max[k], b.min[k] - a.max[k])));

/** What was found at the worst position of a host. */
type Worst =
  | { readonly kind: 'apart'; readonly gap: number; readonly pose: string | null }
  | ({ readonly kind: 'overlap'; readonly pose: string } & Overlap);

interface Overlap {
  readonly depth: number;
  /** What the fit there allows a side, mm. */
  readonly allowed: number;
  readonly volume: number;
  readonly middle: Vec3;
}

/** What was looked at for a host, without the host itself. */
type Looked = Pick<HostPart, 'keepOff' | 'seat'>;

function worstOf(
  scope: Scope,
  { keepOff, seat }: Looked,
  positions: readonly Position[],
  { solid: part, box }: ReturnType<Variant['placed']>,
  meets: readonly PlannedInterface[],
  state: Variant['state'],
): Worst {
  const overlaps = (other: Manifold): Overlap | null => {
    const shared = scope.keep(part.intersect(other));
    return shared.isEmpty() ? null : deepest(scope, shared, meets, state);
  };
  const reach = keepOff + LOOK_BEYOND;
  let worst: Worst = { kind: 'apart', gap: reach, pose: null };
  const near = positions
    .map((position) => ({ ...position, away: boxGap(box, position.box) }))
    .sort((a, b) => a.away - b.away);
  for (const { pose, solid, away } of near) {
    const gap: number = worst.kind === 'apart' ? worst.gap : 0;
    if (away > 0 && away >= gap) break;
    // A gap is 0 where they touch and where they overlap, so only then is the overlap worth a boolean: always at a
    // seat, where the part rests, and for every place whose box is touched once something is.
    const seated = seat !== undefined && away === 0;
    const least = seated || gap === 0 ? 0 : part.minGap(solid, gap);
    if (least < gap) worst = { kind: 'apart', gap: least, pose };
    const overlap = least === 0 ? overlaps(solid) : null;
    if (overlap !== null && (worst.kind === 'apart' || excess(overlap) > excess(worst)))
      worst = { kind: 'overlap', pose, ...overlap };
  }
  return worst;
}

const excess = ({ depth, allowed }: Overlap): number => depth - allowed;

/** The piece of an overlap that most exceeds what its interface allows; null when they merely touch. */
function deepest(
  scope: Scope,
  shared: Manifold,
  meets: readonly PlannedInterface[],
  state: Variant['state'],
): Overlap | null {
  let worst: Overlap | null = null;
  if (thickness(boxOf(shared)) < TOUCH) return null;
  for (const piece of scope.keepAll(shared.decompose())) {
    const box = boxOf(piece);
    const most = thickness(box);
    if (most < TOUCH) continue;
    const middle = times(add(box.min, box.max), 0.5);
    const depth = overlapDepth(meshOf(piece), most);
    const overlap = { depth, allowed: allowedAt(middle, meets, state), volume: shared.volume(), middle };
    if (depth >= TOUCH && (worst === null || excess(overlap) > excess(worst))) worst = overlap;
  }
  return worst;
}

const thickness = ({ min, max }: Box): number => Math.min(...subtract(max, min));

/** What the interface nearest to a place allows there; of several at the same place the one that allows most. */
function allowedAt(middle: Vec3, meets: readonly PlannedInterface[], state: Variant['state']): number {
  const away = meets.map(({ at }) => lengthOf(subtract(at, middle)));
  const nearest = Math.min(...away);
  const here = meets.filter((_, k) => away[k]! < nearest + TOUCH).map((one) => allowance(one, state));
  return Math.max(0, ...here) + (state === 'drawn' ? drawnApart(meets) : 0);
}

/** How far features stand from their places as drawn, mm, because printing will shrink the way between their middles. */
const drawnApart = (meets: readonly PlannedInterface[]): number =>
  meets.reduce((sum, { centres, drawn, host }) => sum + (centres ? Math.abs(drawn - host) : 0), 0);

/** Overlap a side that an interface allows, mm. */
function allowance(
  { kind, window, drawn, host, predicted }: PlannedInterface,
  state: Variant['state'],
): number {
  const printed = Math.max(0, -window.lo / 2);
  if (state === 'predicted') return printed;
  const solid = kind === 'post' || kind === 'rib' ? 1 : -1;
  // What shrinks in print is drawn larger; what stands on the same body and has no fit of its own shrinks with it.
  const shrinks = Math.max(0, (solid * (drawn - predicted)) / 2);
  return Math.max(printed + shrinks, (solid * (drawn - host)) / 2);
}

function gapFinding(
  context: CheckContext,
  scope: Scope,
  { part, solid: host }: Host,
  places: readonly Place[],
  positions: () => readonly Position[],
  variant: Variant,
): Finding {
  const { state, source, placement } = variant;
  const { keepOff, seat } = part;
  const meets = context.interfaces.filter(({ id }) => part.meets?.includes(id)).map(withoutDoubt);
  const worst = context.known.of(
    'gap',
    { source, placement, host, places, keepOff, seat, meets, state },
    () => worstOf(scope, { keepOff, ...(seat && { seat }) }, positions(), variant.placed(), meets, state),
  );
  const overlap = worst.kind === 'overlap';
  const value = overlap ? -worst.depth : worst.gap;
  const limit = overlap && worst.allowed > 0 ? -worst.allowed : part.keepOff;
  return {
    id: `gap.${part.id}.${variant.state}`,
    title: `${part.name}, part ${wordFor[variant.state]}`,
    verdict: verdictOf(part, worst, ridgeOf(context, part, variant.state)),
    value,
    limit,
    unit: 'mm',
    margin: value - limit,
    because: reasonFor(part, worst),
    source: 'geometry of the part and of the machine as measured; gap wanted: common practice, no source',
    remedy: remedyFor(context, part, worst, variant.state),
    // Seen from the part: what it was shifted by to be seated is taken back.
    at: overlap ? place(context.onBed, subtract(worst.middle, variant.seated)) : null,
    details: {
      ...(worst.pose === null ? {} : { pose: worst.pose }),
      'overlap, mm3': overlap ? worst.volume : 0,
      ...(variant.state === 'predicted' && { 'seated by, mm': lengthOf(variant.seated) }),
    },
  };
}

const wordFor = { drawn: 'as drawn', predicted: 'as printed' } as const;

/** Round things laid on their side print in steps whose corners stand out; up to a quarter of a layer such ridges rub off
 *  as the part goes in, and no more than a caution is due. Common practice, no source. */
const RIDGE = 0.25;

/** Overlap that can only be ridges, mm: none as drawn, and none where the sizes themselves come out too tight. */
function ridgeOf(
  { printer, interfaces }: CheckContext,
  { meets = [] }: HostPart,
  state: Variant['state'],
): number {
  const fits = interfaces.filter(({ id }) => meets.includes(id));
  const asPlanned = fits.every(({ clearance, window }) => clearance >= window.lo);
  return state === 'predicted' && fits.length > 0 && asPlanned ? RIDGE * printer.layer : 0;
}

function verdictOf({ keepOff, seat }: HostPart, worst: Worst, ridge: number): Verdict {
  if (worst.kind === 'overlap') {
    if (excess(worst) <= TOUCH) return 'holds';
    return excess(worst) <= ridge ? 'caution' : 'fails';
  }
  if (worst.gap >= keepOff || seat !== undefined) return 'holds';
  return worst.gap === 0 ? 'fails' : 'caution';
}

function reasonFor({ name, keepOff, seat }: HostPart, worst: Worst): string {
  const wanted = keepOff > 0 ? `, ${formatLength(keepOff)} wanted` : '';
  if (worst.kind === 'overlap') {
    const allowed = worst.allowed > 0 ? `, ${formatLength(worst.allowed)} a side allowed by the fit` : wanted;
    return `overlaps ${name} by ${deep(worst.depth)} (${formatNumber(worst.volume)} mm3) at ${worst.pose}${allowed}`;
  }
  if (worst.pose === null)
    return `stays at least ${formatLength(worst.gap)} from ${name} all the way${wanted}`;
  if (worst.gap > 0) return `comes within ${deep(worst.gap)} of ${name} at ${worst.pose}${wanted}`;
  return seat === undefined ? `touches ${name} at ${worst.pose}${wanted}` : `rests against ${name}`;
}

/** Three decimals where two would read as nothing. */
const deep = (mm: number): string => (mm < 0.01 ? formatLength(mm, 0.001) : formatLength(mm));

function remedyFor(context: CheckContext, part: HostPart, worst: Worst, state: Variant['state']): string {
  const { interfaces, printer } = context;
  if (verdictOf(part, worst, ridgeOf(context, part, state)) === 'holds') return '';
  const fits = interfaces.filter(({ id }) => part.meets?.includes(id)).map(({ name }) => name);
  const again = `read the sizes of the part around ${part.name} again`;
  if (worst.kind === 'apart') return `leave more room towards ${part.name}, or ${again}`;
  if (state === 'drawn') return `make the part smaller where it meets ${part.name}, or ${again}`;
  const coupon = printer.calibrated === null ? 'print and measure the coupon first' : again;
  return fits.length > 0 ? `ask for a looser fit of ${fits.join(' and ')}, or ${coupon}` : coupon;
}
