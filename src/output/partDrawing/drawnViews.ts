import { add, dot, lengthOf, subtract, times, type Vec2, type Vec3 } from '../../solid/vector.ts';
import { type Box, boxAround, project, viewOf } from '../drawing/index.ts';
import { arrangeViews } from './arrangeViews.ts';
import { centreLines } from './centreLines.ts';
import { type ChosenSides, chooseSides } from './chooseSides.ts';
import { isRound } from './isRound.ts';
import type { PartDrawingInput, RoundFound, SizeAsked } from './partDrawingInput.ts';
import { boxOfSize, type PaperView, type PlacedSize, placeSizes, type UnplacedSize } from './placeSizes.ts';
import {
  type Direction,
  directionOf,
  enlarged,
  type SeenView,
  sixSides,
  turnedTo,
  viewBeside,
} from './seenView.ts';
import { type DrawableSize, type ShownSize, shownSizes } from './sizeEnds.ts';
import { type SizeText, sizeText, toldText } from './sizeText.ts';

/** The views of a part on paper at one scale. */
export interface ViewsAtScale {
  readonly scale: number;
  readonly views: readonly PaperView[];
  readonly sizes: readonly PlacedSize[];
  /** Where the origin of each view stands, and what all of them take, mm. */
  readonly places: readonly Readonly<Vec2>[];
  readonly box: Box;
}

/** The views of a part, to be set at any scale. */
export interface DrawnViews {
  readonly sides: ChosenSides;
  /** At 1:1, the main view first. */
  readonly seen: readonly SeenView[];
  readonly at: (scale: number) => ViewsAtScale;
  /** Outlines alone, to lay a print on. */
  readonly bare: () => ViewsAtScale;
  /** Sizes that none of the views shows in full, with their text. */
  readonly unseen: readonly { readonly name: string; readonly text: SizeText }[];
}

/** Chooses the views, gathers the sizes and centre lines: the best choice first, then others for paper it does not fit. */
export function drawnViews(input: PartDrawingInput): (() => DrawnViews)[] {
  const { mesh, sizes: asked } = input;
  const sizes = asked.map(
    (size): DrawableSize => ({ ...size, round: isRound(mesh, size), centres: centresOf(size, asked) }),
  );
  const look = sixSides(mesh);
  return chooseSides(mesh, sizes, look).map((sides) => {
    let known: DrawnViews | undefined;
    return () => {
      known ??= viewsOf(sides, look, sizes, input);
      return known;
    };
  });
}

function viewsOf(
  sides: ChosenSides,
  look: (direction: Direction) => SeenView,
  sizes: readonly DrawableSize[],
  { rounds: found, projection }: PartDrawingInput,
): DrawnViews {
  const main = look(sides.main);
  const seen = [
    main,
    ...sides.beside.map((beside) => {
      const view = viewBeside(viewOf(sides.main), beside);
      return turnedTo(look(directionOf(view)), view);
    }),
  ];
  const rounds = [...found, ...sizes.flatMap((size) => roundOf(size, sizes))];
  const all = [...groupedSizes(sizes, seen), ...overallSizes(seen, sizes, rounds)];
  const known = new Map<number, ViewsAtScale>();
  const at = (scale: number): ViewsAtScale => {
    const views = seen.map((one) => ({
      seen: enlarged(one, scale),
      centres: centreLines(one, rounds, scale),
    }));
    const placed = placeSizes(
      all.filter(({ shown }) => shown.length > 0),
      views,
      scale,
    );
    const boxes = views.map(({ seen: { box }, centres }, k) =>
      boxAround([
        ...[box, ...placed.filter(({ view }) => view === k).map(boxOfSize)]
          .flatMap(({ min, max }) => [min, max])
          .map(([x, y]) => [x, y] as const),
        ...centres.flat().map(([x, y]) => [x!, y!] as const),
      ]),
    );
    return { scale, views, sizes: placed, ...arrangeViews(boxes, sides.beside, projection) };
  };
  return {
    sides,
    seen,
    at: (scale) => {
      const views = known.get(scale) ?? at(scale);
      known.set(scale, views);
      return views;
    },
    bare: () => {
      const views = seen.map((one) => ({ seen: { ...one, hidden: [] }, centres: [] }));
      const boxes = views.map(({ seen: { box } }) => box);
      return { scale: 1, views, sizes: [], ...arrangeViews(boxes, sides.beside, projection, 6) };
    },
    unseen: all.filter(({ shown }) => shown.length === 0).map(({ name, text }) => ({ name, text })),
  };
}

/** Points this near are one, mm. */
const SAME = 1e-3;
const same = (p: Readonly<Vec3>, q: Readonly<Vec3>): boolean => lengthOf(subtract(p, q)) < SAME;

/** Which ends of a step lie on the axis of a hollow. */
function centresOf({ kind, at, across, drawn }: SizeAsked, all: readonly SizeAsked[]): [boolean, boolean] {
  if (kind !== 'step') return [false, false];
  const hollows = all.filter((other) => other.kind === 'bore' || other.kind === 'slot');
  const isCentre = (p: Readonly<Vec3>): boolean => hollows.some((hollow) => same(hollow.at, p));
  return [isCentre(at), isCentre(add(at, times(across, drawn)))];
}

/** The axis of what is round, and of hollows whose axis sizes start from. */
function roundOf(size: DrawableSize, all: readonly DrawableSize[]): RoundFound[] {
  const { kind, at, axis, drawn, length, round } = size;
  const isStart =
    (kind === 'bore' || kind === 'slot') &&
    all.some(
      (other) =>
        other.kind === 'step' &&
        (same(other.at, at) || same(add(other.at, times(other.across, other.drawn)), at)),
    );
  return round || isStart ? [{ axis, at, diameter: drawn, length }] : [];
}

/** What must be measured, equal features once with their count (ISO 129-1: repeated features). */
function groupedSizes(sizes: readonly DrawableSize[], seen: readonly SeenView[]): UnplacedSize[] {
  const groups = new Map<string, DrawableSize[]>();
  for (const size of sizes) {
    const { figure, upper, lower } = sizeText(size);
    // Only round ones are told apart well enough by a count; of others each has its own place.
    const key = size.round
      ? [size.kind, figure, upper, lower, ...size.axis.map((c) => Math.abs(c).toFixed(6))].join()
      : size.id;
    groups.set(key, [...(groups.get(key) ?? []), size]);
  }
  return [...groups.values()].map((group) => {
    const [first] = group as [DrawableSize];
    const sign = first.round || first.diameter ? '⌀' : '';
    const count = group.length > 1 ? `${group.length}× ` : '';
    return {
      id: group.map(({ id }) => id).join(' '),
      name: group.map(({ name }) => name).join(', '),
      text: sizeText(first, count + sign),
      length: first.drawn,
      outermost: false,
      shown: group.flatMap((size) =>
        seen.flatMap((one, view) => shownSizes(size, one).map((shown) => ({ view, size: shown }))),
      ),
    };
  });
}

const spans: readonly (readonly [string, Readonly<Vec3>])[] = [
  ['length', [1, 0, 0]],
  ['breadth', [0, 1, 0]],
  ['height', [0, 0, 1]],
];

/** Lengths over all, told in brackets; not those that a size asked for gives already, and of a round part its diameter once. */
function overallSizes(
  seen: readonly SeenView[],
  sizes: readonly DrawableSize[],
  rounds: readonly RoundFound[],
): UnplacedSize[] {
  const told = new Set<string>();
  return spans.flatMap(([name, span]) => {
    const shown = seen.flatMap((one, view) => {
      const [c, s] = project(one.view, span);
      return Math.hypot(c, s) < 0.5 ? [] : [{ view, size: overall(one, [Math.abs(c), Math.abs(s)]) }];
    });
    const [from, to] = shown[0]!.size.ends.map(({ along }) => along) as Vec2;
    const long = to - from;
    if (sizes.some((size) => isGivenBy(size, span, long, seen))) return [];
    const around = rounds.find(
      ({ axis, diameter }) => Math.abs(dot(axis, span)) < 1e-3 && Math.abs(diameter - long) < 0.05,
    );
    const round = around?.axis.map((c) => Math.abs(c).toFixed(3)).join();
    if (round !== undefined && told.has(round)) return [];
    if (round !== undefined) told.add(round);
    return [
      {
        ...{ id: `overall.${name}`, name: `${around ? 'diameter' : name} over all`, length: long },
        ...{ text: toldText(long, around ? '⌀' : ''), outermost: true, shown },
      },
    ];
  });
}

/** Whether a size gives the length over all along `span` as well. */
const isGivenBy = (
  size: DrawableSize,
  span: Readonly<Vec3>,
  long: number,
  seen: readonly SeenView[],
): boolean =>
  Math.abs(size.drawn - long) < 0.05 &&
  seen.some((one) =>
    shownSizes(size, one).some(({ along: [c, s] }) => {
      const [x, y] = project(one.view, span);
      return Math.abs(c * x + s * y) > 0.999;
    }),
  );

/** From the first to the last line of a view, along its paper. */
function overall({ visible, box: { min, max } }: SeenView, along: Readonly<Vec2>): ShownSize {
  const axis = along[0] > 0.5 ? 0 : 1;
  const end = (at: number) => ({
    along: at,
    edges: visible.flat().flatMap((p: readonly number[] | Readonly<Vec2>): [number, number][] => {
      if (Math.abs(p[axis]! - at) > 0.02) return [];
      // Left-hand normal of the paper's x is its y; of its y it is x turned over.
      const across = axis === 0 ? p[1]! : -p[0]!;
      return [[across, across]];
    }),
  });
  return {
    along: axis === 0 ? [1, 0] : [0, 1],
    ends: [end(min[axis]), end(max[axis])],
    merit: 3,
    circle: null,
  };
}
