import { digit, numberBlocks, numberWidth } from '../printer/coupon/digits.ts';
import type { PrinterProfile } from '../printer/types.ts';
import type { Manifold, Scope } from '../solid/kernel.ts';
import { realise } from '../solid/realise.ts';
import { union } from '../solid/shape.ts';
import type { Vec3 } from '../solid/vector.ts';
import { type Box, boxAround } from './ladderBox.ts';
import { closestPitch, copies, pitches, WIDEST_PITCH } from './ladderPitch.ts';
import { clash, type LadderRoom, NOTHING, volumeIn } from './ladderRoom.ts';
import { lookedAtOnce } from './lookedAtOnce.ts';

/** How a row of rungs hangs together: boxes about one rung in its place, the strip along `u`. */
export interface LadderHold {
  /** Axis of the bed along which the rungs stand in a row; the strip lies to the `side` of them along the other. */
  readonly u: 0 | 1;
  readonly side: 1 | -1;
  /** From one rung to the next, mm. */
  readonly pitch: number;
  /** Joins the rung to the strip; and where the rung is held above the bed, the pillar under its far end. */
  readonly arm: Box;
  readonly pillar: Box | null;
  /** Part of the strip beside one rung: as long as the pitch. */
  readonly strip: Box;
  /** Height of the strip, and of the number on it, mm above the bed. */
  readonly heights: { readonly strip: number; readonly number: number };
  /** Whether the machine can be put to every rung without touching strip, arms or neighbours. */
  readonly free: boolean;
}

/** The strip: wide enough for a number and a thumb, and stiff. The arms: as thick, so that they can be bent off. Common
 *  practice, no source; mm. */
const STRIP = { width: 7, height: 1.6 } as const;
const ARM = { width: 4, height: 1.6, pillar: 2.5 } as const;
/** How high the number stands on the strip, and how deep it is rooted in it, mm. */
const NUMBER = { outside: 0.6, inside: 0.4 } as const;
/** Distances from rung to strip that are tried, mm. */
const REACHES = [1.5, 2.5, 3.5, 5, 7, 9, 12, 15, 19];
/** Part of an arm's section that must end in plastic, to this depth in mm: a line or so, to be bent off. */
const HELD = 0.6;
const HELD_DEPTH = 0.5;
/** What costs lose by reckoning volumes in two ways. */
const ROUNDING = 1;
/** How far arm and strip run into each other, mm. */
const INTO_STRIP = 1;

/** What holding a rung this way costs: plastic in mm^3, a bridge like so much more of it, and the rest of the machine
 *  being in the way (it may be put aside) dearer than any plastic but cheaper than no room at all. */
const COST = { bridge: 60, better: 400, needed: 1e6 } as const;

interface Held {
  readonly piece: Manifold;
  /** What must stay open, as in the part: no arm fills it. */
  readonly open: Manifold;
  readonly room: LadderRoom;
  readonly count: number;
  readonly printer: PrinterProfile;
  /** Whether a hold that is not free is of no use. */
  readonly onlyFree: boolean;
}

/** A way to hold the rungs along one axis of the bed. */
interface Way {
  readonly u: 0 | 1;
  readonly side: 1 | -1;
  /** Whether the machine keeps clear of the neighbours alone at a pitch, whatever holds them. */
  readonly clearAt: (pitch: number) => boolean;
  /** Volume of the machine in the lane of the strip, mm^3. */
  readonly inLane: (lane: Box) => number;
}

interface Costed {
  readonly hold: LadderHold;
  readonly cost: number;
}

/** The cheapest way to hold the rungs in a row where the machine needs no room.
 *
 *  For each side, and each height from the bed up, the lowest arm that ends firmly in plastic without filling what is open;
 *  then the nearest strip and the closest neighbours that the machine, in its place and on its way there, keeps clear of.
 *  Everything is taken for its box, so room is rather overstated. Where no side is free, the one least in the way. */
export function ladderHold(scope: Scope, held: Held): LadderHold | null {
  let best: Costed | undefined;
  const { piece, room, count, onlyFree } = held;
  const own = boxAround(piece);
  for (const u of [0, 1] as const) {
    const clearAt = lookedAtOnce(
      (pitch: number) => clash(scope, room.needed, copies([own], u, pitch)) <= NOTHING,
    );
    const inLane = lookedAtOnce((lane: Box) => clash(scope, room.needed, [lane]));
    // Neighbours closer than this touch, whatever holds them.
    const crowded = !pitches(closestPitch(count, u, [own])).some(clearAt);
    if (crowded && onlyFree) continue;
    for (const side of [-1, 1] as const)
      best = onSide(scope, held, { u, side, clearAt, inLane }, crowded ? COST.needed : 0, best) ?? best;
  }
  return best?.hold ?? null;
}

/** The cheapest hold on one side where that is cheaper than `best`; each costs at least `least`. */
function onSide(
  scope: Scope,
  held: Held,
  way: Way,
  least: number,
  best: Costed | undefined,
): Costed | undefined {
  const { printer } = held;
  const height = wholeLayers(ARM.height, printer);
  const top = held.piece.boundingBox().max[2];
  let found: Costed | undefined;
  // Whole layers above the bed, so that arm and strip print as high as they are drawn.
  for (let base = 0; base + height <= top + 0.5; base = nextLevel(base, printer)) {
    const end = armEnd(scope, held, way, base, base + height);
    if (end === undefined) continue;
    for (const reach of REACHES) {
      const beat = (found ?? best)?.cost ?? Infinity;
      const hold = holdAt(scope, held, way, { base, top: base + height, end, reach }, { least, beat });
      if (hold === 'dearer') break;
      if (hold === undefined) continue;
      if (hold.cost < beat) found = hold;
      // Farther and higher only cost more once there is room.
      if (hold.hold.free) return found;
    }
  }
  return found;
}

/** Where the arm ends inside the piece, as a coordinate across the strip; undefined where it finds no firm hold. */
function armEnd(
  scope: Scope,
  { piece, open }: Held,
  { u, side }: Way,
  base: number,
  top: number,
): number | undefined {
  const v = u === 0 ? 1 : 0;
  const { min, max } = piece.boundingBox();
  const [outer, inner] = side === 1 ? [max[v]!, min[v]!] : [min[v]!, max[v]!];
  const [low, high] = armWidth(piece, u);
  const section = HELD * (high - low) * (top - base);
  const depths = Math.abs(outer - inner) / 2;
  for (let depth = HELD_DEPTH; depth <= depths; depth += 0.25) {
    const end = outer - side * depth;
    const root = across(u, [low, high], [end, end + side * HELD_DEPTH], [base, top]);
    if (volumeIn(scope, piece, [root]) < section * HELD_DEPTH) continue;
    const whole = across(u, [low, high], [end, outer + side * REACHES[0]!], [base, top]);
    return volumeIn(scope, open, [whole]) < NOTHING ? end : undefined;
  }
  return undefined;
}

function armWidth(piece: Manifold, u: 0 | 1): [number, number] {
  const { min, max } = piece.boundingBox();
  const middle = (min[u]! + max[u]!) / 2;
  const half = Math.min(ARM.width, max[u]! - min[u]!) / 2;
  return [middle - half, middle + half];
}

/** One way to hold the rungs, `'dearer'` where its plastic alone and the `least` of its way cost as much as the hold to
 *  `beat`; undefined where the printer does not bridge so far, or where it is of no use. */
function holdAt(
  scope: Scope,
  held: Held,
  { u, side, clearAt, inLane }: Way,
  { base, top, end, reach }: { base: number; top: number; end: number; reach: number },
  { least, beat }: { readonly least: number; readonly beat: number },
): Costed | 'dearer' | undefined {
  const { piece, room, count, printer, onlyFree } = held;
  const bridged = base > 0;
  if (bridged && reach > printer.bridge) return undefined;
  const v = u === 0 ? 1 : 0;
  const own = boxAround(piece);
  const outer = side === 1 ? own.max[v] : own.min[v];
  const near = outer + side * reach;
  const low = wholeLayers(STRIP.height, printer);
  const [from, to] = armWidth(piece, u);
  const far = near + side * (bridged ? ARM.pillar : INTO_STRIP);
  const arm = across(u, [from, to], [end, far], [base, top]);
  const pillar = bridged ? across(u, [from, to], [near, far], [0, top]) : null;
  const middle = (from + to) / 2;
  const numbers = low + Math.max(1, Math.round(NUMBER.outside / printer.layer)) * printer.layer;
  // A pillar stands on the strip beside the number, not on it.
  const wide = STRIP.width + (bridged ? ARM.pillar : 0);
  const lane = (half: number, height = numbers): Box =>
    across(u, [middle - half, middle + half], [near, near + side * wide], [0, height]);
  const beyondPiece = across(u, [from, to], [outer, far], [base, top]);
  const holding = [beyondPiece, ...(pillar ? [pillar] : [])];
  const plastic = (pitch: number): number =>
    volumeOf(lane(pitch / 2, low)) +
    volumeOf(beyondPiece) +
    (pillar ? volumeOf(pillar) + COST.bridge * reach : 0);
  const closest = closestPitch(count, u, [own, ...holding]);
  if (plastic(closest) + least >= beat) return 'dearer';

  // What is in the way of the lane alone is less than all that is in the way, and the same for every height.
  const wholeLane = lane(count * WIDEST_PITCH);
  const atLeast = inLane(wholeLane);
  if (atLeast > NOTHING && (onlyFree || plastic(closest) + COST.needed * (1 + atLeast) >= beat + ROUNDING))
    return undefined;
  const still = [...holding, wholeLane];
  const inWay = clash(scope, room.needed, still);
  // Where strip or arm is in the way already, neighbours need not be looked at.
  const clear =
    inWay <= NOTHING
      ? pitches(closest).find(
          (pitch) => clearAt(pitch) && clash(scope, room.needed, copies(holding, u, pitch)) <= NOTHING,
        )
      : undefined;
  const free = clear !== undefined;
  if (onlyFree && !free) return undefined;
  const pitch = clear ?? closest;

  const strip = lane(pitch / 2, low);
  const around = [...holding, lane(count * pitch), ...copies([own, ...holding], u, pitch)];
  const soft = room.better === null ? 0 : clash(scope, room.better, around);
  const cost = plastic(pitch) + (soft > NOTHING ? COST.better : 0) + (free ? 0 : COST.needed * (1 + inWay));
  const heights = { strip: low, number: numbers };
  return { hold: { u, side, pitch, arm, pillar, strip, heights, free }, cost };
}

/** A number as it stands on the strip beside its rung, `by` mm from the first. It reads along the row. */
export function rungNumber(
  scope: Scope,
  { u, side, strip, pillar, heights }: LadderHold,
  number: number,
  by: Readonly<Vec3>,
  lineWidth: number,
): Manifold {
  const aside = pillar ? (side * ARM.pillar) / 2 : 0;
  const middle = [0, 1].map((k) => (strip.min[k]! + strip.max[k]!) / 2 + by[k]! + (k === u ? 0 : aside));
  const [along, up]: [Vec3, Vec3] =
    u === 0
      ? [
          [1, 0, 0],
          [0, 1, 0],
        ]
      : [
          [0, 1, 0],
          [-1, 0, 0],
        ];
  const [back, down] = [numberWidth(number) / 2, digit.height / 2];
  const at: Vec3 = [
    middle[0]! - back * along[0] - down * up[0],
    middle[1]! - back * along[1] - down * up[1],
    heights.strip,
  ];
  const sizes = { inside: NUMBER.inside, outside: heights.number - heights.strip, lineWidth };
  return realise(scope, union(...numberBlocks(number, { at, along, up }, sizes)));
}

/** Box by ranges along the strip, across it and upwards; a range may run either way. */
function across(
  u: 0 | 1,
  along: readonly [number, number],
  sideways: readonly [number, number],
  up: readonly [number, number],
): Box {
  const [a, b] = [
    [Math.min(...along), Math.max(...along)],
    [Math.min(...sideways), Math.max(...sideways)],
  ] as [[number, number], [number, number]];
  const [x, y] = u === 0 ? [a, b] : [b, a];
  return { min: [x[0], y[0], up[0]], max: [x[1], y[1], up[1]] };
}

const volumeOf = ({ min, max }: Box): number => (max[0] - min[0]) * (max[1] - min[1]) * (max[2] - min[2]);

/** Nearest height in whole layers, at least two. */
function wholeLayers(height: number, { layer, firstLayer }: PrinterProfile): number {
  return firstLayer + Math.max(1, Math.round((height - firstLayer) / layer)) * layer;
}

/** The next base for an arm, about a millimetre up. */
function nextLevel(base: number, { layer, firstLayer }: PrinterProfile): number {
  const step = layer * Math.max(1, Math.round(0.6 / layer));
  return base === 0 ? firstLayer + Math.max(0, Math.round((0.6 - firstLayer) / layer)) * layer : base + step;
}
