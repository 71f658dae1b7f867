import type { CouponFeature } from '../../printer/coupon/feature.ts';
import { ground } from '../../printer/coupon/ground.ts';
import type { Mesh } from '../../solid/mesh.ts';
import type { Vec2 } from '../../solid/vector.ts';
import {
  type Box,
  boxAround,
  chains,
  clipContour,
  clipSegment,
  type DimensionGeometry,
  dimensionGeometry,
  dimensionMarks,
  grown,
  lineView,
  pathData,
  region,
  type Segment,
} from '../drawing/index.ts';
import { placeFields } from '../readingForm/placeFields.ts';
import { spreadApart } from './spreadApart.ts';
import { SHOWN } from './towerView.ts';

/** Lines or fills of one kind as SVG path data, mm on the sheet, y down. */
export interface CouponPath {
  readonly kind: 'part-fill' | 'part';
  readonly d: string;
}

/** One feature on the drawing: what leads to it and where its numbers are typed. */
export interface CouponField {
  readonly feature: string;
  readonly number: number;
  /** Dimension line, or what leads from the field to where the jaws go, as path data; closed arrowheads apart. */
  readonly lines: string;
  readonly arrows: string;
  /** Where the jaws touch. */
  readonly touches: readonly [Readonly<Vec2>, Readonly<Vec2>];
  /** Left, top, width and height of the field, mm on the sheet. */
  readonly field: readonly [number, number, number, number];
}

/** The drawing of a coupon that is its form: from above, and its tower from the front. */
export interface CouponSheet {
  /** Width and height, mm. */
  readonly size: readonly [number, number];
  readonly paths: readonly CouponPath[];
  readonly titles: readonly { readonly words: string; readonly at: Readonly<Vec2> }[];
  /** In the order of measuring. */
  readonly fields: readonly CouponField[];
}

/** Paper over part: from above, and the tower. */
const PLAN = 1.6;
const TOWER = 1.9;
/** From the outline to the fields beside it, between fields, from lane to lane of long dimensions, mm on paper. */
const ASIDE = 7;
const APART = 1.6;
const LANE = 3;
/** Lengths from this on, mm on the part, have a dimension line. */
const LONG = 50;

interface Marked {
  readonly feature: CouponFeature;
  readonly lines: readonly (readonly Readonly<Vec2>[])[];
  readonly arrows: readonly (readonly Readonly<Vec2>[])[];
  readonly touches: readonly [Readonly<Vec2>, Readonly<Vec2>];
  /** Middle of the field. */
  readonly at: Readonly<Vec2>;
}

/** Draws a coupon with a field of `field` mm for the numbers of each feature, beside what it is about. The same coupon gives
 *  the same drawing. */
export function couponSheet(
  mesh: Mesh,
  features: readonly CouponFeature[],
  field: readonly [number, number],
): CouponSheet {
  const plan = seenFromAbove(mesh);
  const level = features.filter(({ measurand }) => measurand.direction[2] === 0);
  const above = markedFromAbove(level, field);
  const right = Math.max(plan.box.max[0], ...above.map(({ at }) => at[0] + field[0] / 2));

  const tower = towerFromFront(mesh);
  const upright = features.filter(({ measurand }) => measurand.direction[2] === 1);
  const standing = markedUpright(upright, tower.box, field);
  // In the upper right of the empty square between the arms.
  const whole = boxOf(standing, tower.box, field);
  const by: Vec2 = [right - whole.max[0] - 1, plan.box.max[1] - whole.max[1] - 1];
  const moved = standing.map((one) => movedBy(one, by));

  const marked = [...above, ...moved];
  const sheet = grown(boxOf(marked, plan.box, field), 2);
  const at = ([x, y]: Readonly<Vec2>): Vec2 => [x - sheet.min[0], y - sheet.max[1]];
  const down = (p: Readonly<Vec2>): Vec2 => {
    const [x, y] = at(p);
    return [x, -y];
  };
  const data = (lines: readonly (readonly Readonly<Vec2>[])[], closed = false) =>
    pathData(
      lines.map((line) => line.map(at)),
      closed,
    );
  const put = (lines: readonly (readonly Readonly<Vec2>[])[]) =>
    lines.map((line) => line.map(([x, y]): Vec2 => [x + by[0], y + by[1]]));
  const order = new Map(features.map(({ id }, k) => [id, k]));
  return {
    size: [sheet.max[0] - sheet.min[0], sheet.max[1] - sheet.min[1]],
    paths: [
      { kind: 'part-fill', d: data(plan.fill, true) + data(put(tower.fill), true) },
      { kind: 'part', d: data(plan.lines) + data(put(tower.lines)) },
    ],
    titles: [
      { words: 'from above', at: down([-ASIDE - field[0] / 2 - 6, -ASIDE - field[1]]) },
      {
        words: 'tower from the front',
        at: down([(tower.box.min[0] + tower.box.max[0]) / 2 + by[0], tower.box.min[1] + by[1] - 4.5]),
      },
    ],
    fields: marked
      .sort((a, b) => order.get(a.feature.id)! - order.get(b.feature.id)!)
      .map(({ feature, lines, arrows, touches, at: middle }) => {
        const [x, y] = down(middle);
        return {
          feature: feature.id,
          number: feature.number,
          lines: data(lines),
          arrows: data(arrows, true),
          touches: [down(touches[0]), down(touches[1])],
          field: [x - field[0] / 2, y - field[1] / 2, field[0], field[1]],
        };
      }),
  };
}

interface Seen {
  readonly fill: readonly (readonly Readonly<Vec2>[])[];
  readonly lines: readonly (readonly Readonly<Vec2>[])[];
  readonly box: Box;
}

const scaled = (scale: number) => (p: Readonly<Vec2>) => [p[0] * scale, p[1] * scale] as const;

function seenFromAbove(mesh: Mesh): Seen {
  const onPaper = scaled(PLAN);
  const fill = region(mesh, 'top').map((contour) => contour.map(onPaper));
  const segments = lineView([mesh], 'top').visible.map((s): Segment => [onPaper(s[0]), onPaper(s[1])]);
  return { fill, lines: chains(segments), box: boxAround(fill.flat()) };
}

/** The tower and the beginning of the arm behind it. */
function towerFromFront(mesh: Mesh): Seen {
  const onPaper = scaled(TOWER);
  const outline = region(mesh, 'front');
  const { min, max } = boxAround(outline.flat());
  const window: Box = { min: [min[0] - 1, min[1] - 1], max: [SHOWN, max[1] + 1] };
  const fill = outline
    .map((contour) => clipContour(contour, window).map(onPaper))
    .filter(({ length }) => length > 2);
  const segments = lineView([mesh], 'front').visible.flatMap((segment): Segment[] => {
    const inside = clipSegment(segment, window);
    return inside ? [[onPaper(inside[0]), onPaper(inside[1])]] : [];
  });
  return { fill, lines: chains(segments), box: boxAround(fill.flat()) };
}

function markedUpright(
  features: readonly CouponFeature[],
  outline: Box,
  field: readonly [number, number],
): readonly Marked[] {
  const wanted = features.map(({ callout: [a, b] }) => {
    // What stands further along the arm is measured on the same faces, so it is shown where they are cut off.
    const x = Math.min(a[0], SHOWN - 1) * TOWER;
    return { anchors: [[x, a[2] * TOWER] as const, [x, b[2] * TOWER] as const] as const };
  });
  const { places } = placeFields(wanted, outline, field);
  return features.map((feature, k) => {
    const { geometry, box } = places[k]!;
    return {
      feature,
      ...dimensionMarks(geometry),
      touches: wanted[k]!.anchors,
      at: [(box.min[0] + box.max[0]) / 2, (box.min[1] + box.max[1]) / 2],
    };
  });
}

function markedFromAbove(
  features: readonly CouponFeature[],
  field: readonly [number, number],
): readonly Marked[] {
  const ends = ({ callout }: CouponFeature): readonly [Vec2, Vec2] => [
    [callout[0][0] * PLAN, callout[0][1] * PLAN],
    [callout[1][0] * PLAN, callout[1][1] * PLAN],
  ];
  const long = features.filter(({ nominal, axis }) => nominal >= LONG && typeof axis === 'string');
  const [wide, high] = field;
  // Fields of what is short stand next to the part, the long dimensions beyond them.
  const beyond = { x: ASIDE + high + LANE, y: ASIDE + wide + LANE };
  const taken = { x: 0, y: 0 };
  const dimensioned = [...long]
    // The shorter one nearer, as on any drawing.
    .sort((a, b) => a.nominal - b.nominal)
    .map((feature): Marked => {
      const axis = feature.axis as 'x' | 'y';
      const anchors = ends(feature);
      const step = axis === 'x' ? high + LANE : wide / 2 + LANE;
      const lane = beyond[axis] + step * (taken[axis] + 0.3);
      const offset = axis === 'x' ? -(anchors[0][1] + lane) : anchors[0][0] + lane;
      const geometry = dimensionGeometry({ anchors, offset });
      // Side by side the fields would want a lane each.
      const share = axis === 'x' ? 0.55 : 0.72 - 0.2 * taken.y;
      taken[axis]++;
      return { feature, ...dimensionMarks(geometry), touches: anchors, at: along(geometry, share) };
    });

  const groups = new Map<Side, CouponFeature[]>();
  for (const feature of features.filter((one) => !long.includes(one)))
    groups.set(sideOf(feature), [...(groups.get(sideOf(feature)) ?? []), feature]);
  const led = [...groups].flatMap(([side, group]) => {
    const run = side === 'above' || side === 'below' ? 0 : 1;
    const gap = (run === 0 ? wide : high) + APART;
    const aims = group.map((feature) => aimOf(feature));
    const wished = aims.map((aim) => aim[run]);
    const least = run === 0 || side !== 'right' ? -Infinity : ground.corner * PLAN + 2;
    const first = run === 0 && side === 'above' ? ground.corner * PLAN + 2 + wide / 2 : least;
    const places = pushedFrom(spreadApart(wished, gap), first, gap);
    return group.map((feature, k): Marked => {
      const touches = ends(feature);
      const at = fieldAt(side, places[k]!, touches, field);
      return { feature, lines: [[at, aims[k]!], touches], arrows: [], touches, at };
    });
  });
  return [...dimensioned, ...led];
}

/** Where the leader of a feature ends. */
function aimOf({ kind, callout, at }: CouponFeature): Vec2 {
  // Posts have two lengths about one middle; what tells them apart is where the jaws touch.
  const [x, y] = kind === 'post' ? callout[1] : at;
  return [x * PLAN, y * PLAN];
}

type Side = 'above' | 'right' | 'below' | 'left' | 'across';

function sideOf({ at: [x, y], kind, axis, callout }: CouponFeature): Side {
  if (typeof axis !== 'string') return 'across';
  if (kind === 'slot') return axis === 'x' ? 'below' : 'left';
  // What is measured over the whole arm is reached from outside.
  if (callout[0][1] === 0 && callout[1][1] === ground.arm) return 'below';
  return y > x || kind === 'bore' ? 'right' : 'above';
}

function fieldAt(
  side: Side,
  place: number,
  touches: readonly [Vec2, Vec2],
  [wide, high]: readonly [number, number],
): Vec2 {
  const arm = ground.arm * PLAN;
  switch (side) {
    case 'above':
      return [place, arm + ASIDE + high / 2];
    case 'right':
      return [arm + ASIDE + wide / 2, place];
    case 'below':
      return [place, -ASIDE - high / 2];
    case 'left':
      return [-ASIDE - wide / 2, place];
    case 'across': {
      // On the long diagonal, and beyond the end of the short one.
      const [a, b] = touches;
      const isLong = Math.hypot(b[0] - a[0], b[1] - a[1]) > LONG * PLAN;
      return isLong ? [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] : [b[0] + wide, b[1] + 0.75 * high];
    }
  }
}

/** Moves places up until none is below `first`, the gap kept. */
function pushedFrom(places: readonly number[], first: number, gap: number): readonly number[] {
  const order = places.map((_, k) => k).sort((a, b) => places[a]! - places[b]!);
  const out = [...places];
  let least = first;
  for (const k of order) {
    out[k] = Math.max(places[k]!, least);
    least = out[k] + gap;
  }
  return out;
}

const along = ({ ends: [a, b] }: DimensionGeometry, share: number): Vec2 => [
  a[0] + share * (b[0] - a[0]),
  a[1] + share * (b[1] - a[1]),
];

const movedBy = (one: Marked, [dx, dy]: Readonly<Vec2>): Marked => {
  const move = ([x, y]: Readonly<Vec2>): Vec2 => [x + dx, y + dy];
  const lines = (of: Marked['lines']) => of.map((line) => line.map(move));
  const [a, b] = one.touches;
  return {
    feature: one.feature,
    lines: lines(one.lines),
    arrows: lines(one.arrows),
    touches: [move(a), move(b)],
    at: move(one.at),
  };
};

function boxOf(marked: readonly Marked[], outline: Box, [wide, high]: readonly [number, number]): Box {
  const points = marked.flatMap(({ lines, at: [x, y] }) => [
    ...lines.flat(),
    [x - wide / 2, y - high / 2] as const,
    [x + wide / 2, y + high / 2] as const,
  ]);
  return boxAround([outline.min, outline.max, ...points].map(([x, y]) => [x, y] as const));
}
