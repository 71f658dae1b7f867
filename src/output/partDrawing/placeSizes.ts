import type { Vec2 } from '../../solid/vector.ts';
import { type Box, boxAround, clipSegment, dimensioning, grown, type Segment } from '../drawing/index.ts';
import { cornersOf, cross, meetsLine, meetsRectangle, type Rectangle } from './rectangle.ts';
import type { SeenView } from './seenView.ts';
import type { ShownSize } from './sizeEnds.ts';
import { extentOfText, type SizeText } from './sizeText.ts';

/** A size that wants a place in one of the views that can show it. */
export interface UnplacedSize {
  readonly id: string;
  readonly name: string;
  readonly text: SizeText;
  /** Length, mm: short ones go nearest to the part. */
  readonly length: number;
  /** Over all: outermost. */
  readonly outermost: boolean;
  readonly shown: readonly { readonly view: number; readonly size: ShownSize }[];
}

/** A view on paper, its origin that of the part. */
export interface PaperView {
  readonly seen: SeenView;
  readonly centres: readonly Segment[];
}

/** A size where it stands, mm on paper, in the frame of its view. */
export interface PlacedSize {
  readonly id: string;
  readonly name: string;
  readonly text: SizeText;
  readonly view: number;
  /** Dimension line from end to end, then its tails; of a leader the slanted line, then its shelf. */
  readonly line: readonly Segment[];
  readonly leader: boolean;
  readonly extensions: readonly Segment[];
  /** Points of arrowheads, and unit vectors out of their tips. */
  readonly arrows: readonly (readonly [Readonly<Vec2>, Readonly<Vec2>])[];
  readonly room: Rectangle;
  /** What its place costs, as mm of distance from the outline. */
  readonly cost: number;
}

/** First dimension line from the outline, lines from each other, mm; ISO 129-1 asks for a distance that keeps them apart. */
const FIRST = 8;
const LANE = 3;
const LANES = 16;
/** Times each size is placed. */
const ROUNDS = 4;
/** Text above its line, and clear of all else, mm. */
const ABOVE = 0.9;
const CLEAR = 0.7;
/** Dimension lines side by side keep this apart, mm. */
const APART = 7;
/** Beyond the arrow that points from outside, mm. */
const TAIL = 4;

/** What costs how much, as mm of distance. */
const cost = {
  merit: 30,
  outside: 4,
  within: 0.6,
  extensionOverEdge: 2,
  extensionsCross: 10,
  overLine: 150,
  overTail: 25,
  overEnd: 4,
  touching: 400,
} as const;

/** Gives each size a place outside of the outline of a view that shows it well, so that no text meets anything and no dimension
 *  line is crossed where that can be (ISO 129-1:2018, clause 4). Short ones first and nearest; then each
 *  is placed once more among all others. `scale`: paper over part. The same input gives the same places. */
export function placeSizes(
  sizes: readonly UnplacedSize[],
  views: readonly PaperView[],
  scale: number,
): PlacedSize[] {
  const order = sizes
    .map((size, k) => ({ size, k }))
    .sort(
      (a, b) =>
        Number(a.size.outermost) - Number(b.size.outermost) || a.size.length - b.size.length || a.k - b.k,
    );
  const shownIn = views.map((_, view) =>
    sizes.flatMap(({ shown }) => shown.filter((one) => one.view === view).map((one) => one.size)),
  );
  // What is placed first takes the best places, and the first choice is not always the best for all: two orders are tried.
  const ways = [order, [...order].reverse()].map((way) => {
    const placed = new Map<number, PlacedSize>();
    for (let round = 0; round < ROUNDS; round++)
      for (const { size, k } of round === 0 ? way : order) {
        placed.delete(k);
        placed.set(k, cheapest(size, views, scale, [...placed.values()], shownIn));
      }
    return sizes.map((_, k) => placed.get(k)!);
  });
  const total = (way: readonly PlacedSize[]): number => way.reduce((sum, one) => sum + one.cost, 0);
  return ways.reduce((a, b) => (total(b) < total(a) - 1e-6 ? b : a));
}

type Candidate = Omit<PlacedSize, 'cost'> & { readonly own: number };

function cheapest(
  size: UnplacedSize,
  views: readonly PaperView[],
  scale: number,
  others: readonly PlacedSize[],
  shownIn: readonly (readonly ShownSize[])[],
): PlacedSize {
  const bestMerit = Math.max(...size.shown.map(({ size: { merit } }) => merit));
  const candidates = size.shown
    .flatMap(({ view, size: shown }) => {
      const lacking = cost.merit * (bestMerit - shown.merit);
      return [
        ...besideOutline(size, shown, view, views[view]!, scale, shownIn[view]!),
        ...(shown.circle ? withLeader(size, shown.circle, view, views[view]!, scale) : []),
      ].map((candidate) => ({ ...candidate, own: candidate.own + lacking }));
    })
    .sort((a, b) => a.own - b.own);
  let best: PlacedSize | undefined;
  for (const { own, ...found } of candidates) {
    // From here on even an empty place would cost more.
    if (best && own >= best.cost) break;
    const among = others.filter((other) => other.view === found.view);
    const total = own + conflicts(found, views[found.view]!, among, (best?.cost ?? Infinity) - own);
    if (!best || total < best.cost - 1e-9) best = { ...found, cost: total };
  }
  return best!;
}

/** Direction in which text along a line is read, from below or from the right, and what is above it then. */
function readingWay([c, s]: Readonly<Vec2>): { way: Vec2; above: Vec2 } {
  const turned = c < -1e-6 || (Math.abs(c) <= 1e-6 && s < 0);
  const way: Vec2 = turned ? [-c, -s] : [c, s];
  return { way, above: [-way[1], way[0]] };
}

/** Ends beyond which a figure may stand, and how much further out than it must, mm. */
const beyondEnds = [0, 6, 12, 18, 24].flatMap((further) => [[1, further] as const, [-1, further] as const]);

function* besideOutline(
  { id, name, text }: UnplacedSize,
  shown: ShownSize,
  view: number,
  { seen }: PaperView,
  scale: number,
  endsAround: readonly ShownSize[],
): Generator<Candidate> {
  const { way, above } = readingWay(shown.along);
  const turned = way[0] * shown.along[0] + way[1] * shown.along[1] < 0;
  const sign = turned ? -1 : 1;
  const ends = shown.ends
    .map(({ along, edges }) => ({
      at: sign * along * scale,
      edges: edges.map(([p, q]): Vec2 => {
        const [a, b] = [sign * p * scale, sign * q * scale];
        return [Math.min(a, b), Math.max(a, b)];
      }),
    }))
    .sort((a, b) => a.at - b.at);
  const [from, to] = ends as [(typeof ends)[0], (typeof ends)[0]];
  const point = (u: number, v: number): Vec2 => [u * way[0] + v * above[0], u * way[1] + v * above[1]];
  const [width, height] = extentOfText(text);
  const length = to.at - from.at;
  const { arrowLength, gap, overshoot } = dimensioning;
  const arrowsInside = length >= 2 * arrowLength + 1;
  const fits = length >= width + 2;
  const corners = [
    [seen.box.min[0], seen.box.min[1]],
    [seen.box.max[0], seen.box.min[1]],
    [seen.box.min[0], seen.box.max[1]],
    [seen.box.max[0], seen.box.max[1]],
  ].map(([x, y]) => x! * above[0] + y! * above[1]);
  // Where extension lines of others may come past.
  const places = endsAround
    .filter(({ along }) => Math.abs(along[0] * way[0] + along[1] * way[1]) > 1 - 1e-6)
    .flatMap(({ along, ends: [p, q] }) => {
      const other = along[0] * way[0] + along[1] * way[1] < 0 ? -scale : scale;
      return [p.along * other, q.along * other];
    })
    .filter((u) => Math.abs(u - from.at) > 0.1 && Math.abs(u - to.at) > 0.1);
  for (const side of [1, -1]) {
    const outline = Math.max(...corners.map((v) => side * v));
    const first = side > 0 ? FIRST : Math.max(FIRST, height + 2 * ABOVE + 2);
    for (let lane = 0; lane < LANES; lane++) {
      const away = first + lane * LANE;
      const level = side * (outline + away);
      // Length of extension lines over the part.
      let within = 0;
      const extensions = [from, to].map(({ at, edges }) => {
        const nearest = side * Math.max(...edges.flat().map((v) => side * v));
        within += outline - side * nearest;
        return [point(at, nearest + side * gap), point(at, level + side * overshoot)] as const;
      });
      // The figure stands over the line, or over its tail beyond one of the ends, near or further out.
      for (const [beyond, further] of fits ? [[0, 0] as const] : beyondEnds) {
        const tail = (arrowsInside ? 1 : arrowLength + 1) + further;
        const spare = arrowsInside ? 0 : TAIL + arrowLength;
        const left = from.at - (beyond < 0 ? tail + width : spare);
        const right = to.at + (beyond > 0 ? tail + width : spare);
        const middle =
          beyond === 0 ? (from.at + to.at) / 2 : beyond > 0 ? right - width / 2 : left + width / 2;
        const over = places.filter((u) => Math.abs(u - middle) < width / 2 + CLEAR).length;
        const outward = (tip: number, sense: number): readonly [Vec2, Vec2] => [
          point(tip, level),
          [way[0] * sense, way[1] * sense],
        ];
        yield {
          ...{ id, name, text, view, extensions },
          line: [
            [point(from.at, level), point(to.at, level)],
            ...(left < from.at ? [[point(left, level), point(from.at, level)] as const] : []),
            ...(right > to.at ? [[point(to.at, level), point(right, level)] as const] : []),
          ],
          leader: false,
          arrows: arrowsInside
            ? [outward(from.at, -1), outward(to.at, 1)]
            : [outward(from.at, 1), outward(to.at, -1)],
          room: {
            middle: point(middle, level + ABOVE + height / 2),
            along: way,
            half: [width / 2, height / 2],
          },
          own:
            away +
            cost.within * within +
            (beyond === 0 ? 0 : cost.outside + further / 2 + cost.overEnd * over),
        };
      }
    }
  }
}

/** A diameter at the end of a leader that points at the middle of its circle (ISO 129-1: leader with arrowhead on the outline). */
function* withLeader(
  { id, name, text }: UnplacedSize,
  { middle, radius }: NonNullable<ShownSize['circle']>,
  view: number,
  { seen }: PaperView,
  scale: number,
): Generator<Candidate> {
  const [width, height] = extentOfText(text);
  const [x, y] = [middle[0] * scale, middle[1] * scale];
  const far = Math.hypot(seen.box.max[0] - seen.box.min[0], seen.box.max[1] - seen.box.min[1]);
  for (const degrees of [45, 60, 30, 135, 120, 150, -45, -60, -30, -135, -120, -150]) {
    const angle = (degrees * Math.PI) / 180;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const tip: Vec2 = [x + c * radius * scale, y + s * radius * scale];
    for (let long = 6; long < far + 12; long += 4) {
      const knee: Vec2 = [tip[0] + c * long, tip[1] + s * long];
      const end: Vec2 = [knee[0] + Math.sign(c) * (width + 1), knee[1]];
      yield {
        ...{ id, name, text, view, extensions: [] },
        line: [
          [tip, knee],
          [knee, end],
        ],
        leader: true,
        arrows: [[tip, [-c, -s]]],
        room: {
          middle: [(knee[0] + end[0]) / 2 + Math.sign(c) / 2, knee[1] + ABOVE + height / 2],
          along: [1, 0],
          half: [width / 2, height / 2],
        },
        own: 8 + long,
      };
    }
  }
}

/** What the place costs by what it touches, reckoned no further than `enough`. */
function conflicts(
  own: Omit<PlacedSize, 'cost'>,
  { seen, centres }: PaperView,
  others: readonly PlacedSize[],
  enough: number,
): number {
  const { room, line, extensions } = own;
  let total = 0;
  const around = grown(boxOfSize(own), 1.5 * CLEAR);
  for (const edge of [...seen.visible, ...seen.hidden]) {
    if (total >= enough) return total;
    // Most of a part with many edges is nowhere near.
    if (clipSegment(edge, around) === null) continue;
    if (meetsLine(room, edge, CLEAR)) total += cost.touching;
    for (const extension of extensions) if (cross(extension, edge)) total += cost.extensionOverEdge;
    if (own.leader && cross(line[0]!, edge)) total += cost.extensionOverEdge;
    if (own.leader && cross(line[1]!, edge)) total += cost.touching;
  }
  for (const centre of centres) {
    if (meetsLine(room, centre, CLEAR)) total += cost.overLine;
  }
  for (const other of others) {
    if (total >= enough) return total;
    if (meetsRectangle(room, other.room, CLEAR)) total += cost.touching;
    for (const [one, two] of [
      [own, other],
      [other, own],
    ] as const) {
      for (const mark of [...two.line, ...two.extensions])
        if (meetsLine(one.room, mark, CLEAR)) total += cost.touching;
      one.line.forEach((drawn, k) => {
        for (const mark of two.extensions)
          if (cross(drawn, mark)) total += k === 0 ? cost.overLine : cost.overTail;
      });
    }
    for (const drawn of line)
      for (const mark of other.line) {
        if (cross(drawn, mark)) total += cost.touching;
        else if (besideEachOther(drawn, mark)) total += cost.overLine;
      }
    for (const drawn of extensions)
      for (const mark of other.extensions) if (cross(drawn, mark)) total += cost.extensionsCross;
  }
  return total;
}

/** Whether two parallel lines run alongside nearer than dimension lines should. */
function besideEachOther([a, b]: Segment, [c, d]: Segment): boolean {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [x, y] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const along = (p: Readonly<Vec2>): number => (p[0] - a[0]) * x + (p[1] - a[1]) * y;
  const off = (p: Readonly<Vec2>): number => Math.abs((p[1] - a[1]) * x - (p[0] - a[0]) * y);
  if (Math.abs(off(c) - off(d)) > 0.1 || off(c) >= APART) return false;
  const [from, to] = [Math.min(along(c), along(d)), Math.max(along(c), along(d))];
  return to > -1 && from < length + 1 && (off(c) > 0.01 || (to > 1 && from < length - 1));
}

/** All that a placed size covers. */
export const boxOfSize = ({
  line,
  extensions,
  room,
}: Pick<PlacedSize, 'line' | 'extensions' | 'room'>): Box =>
  boxAround([...line.flat(), ...extensions.flat(), ...cornersOf(room)].map(([x, y]) => [x!, y!] as const));
