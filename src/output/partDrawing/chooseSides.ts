import type { Mesh } from '../../solid/mesh.ts';
import { dot } from '../../solid/vector.ts';
import { type Segment, sharpEdges, type View, viewOf } from '../drawing/index.ts';
import {
  type Beside,
  type Direction,
  directionOf,
  directions,
  type SeenView,
  viewBeside,
} from './seenView.ts';
import { type DrawableSize, shownSizes } from './sizeEnds.ts';

/** The views of a sheet. */
export interface ChosenSides {
  readonly main: Direction;
  readonly beside: readonly Beside[];
}

const runs: Readonly<Record<Beside, string>> = {
  left: 'level',
  right: 'level',
  above: 'plumb',
  below: 'plumb',
};

/** Share of the edges that a view fewer may leave to dashes. */
const SPARED = 0.11;

/** Fewest views in which every size shows at edges that are seen, and which show nearly as many edges as any three could: a main
 *  one and at most two beside it. Of as many, those that show sizes better and leave less hidden. The best first, then
 *  the best of those that lie otherwise on the paper. */
export function chooseSides(
  mesh: Mesh,
  sizes: readonly DrawableSize[],
  look: (direction: Direction) => SeenView,
): ChosenSides[] {
  const merits = new Map(
    directions.map((direction) => [
      direction,
      sizes.map((size) => Math.max(0, ...shownSizes(size, look(direction)).map(({ merit }) => merit))),
    ]),
  );
  const { lengths, shownIn } = sharpEdges(mesh);
  const shown = new Map(directions.map((direction) => [direction, shownIn(direction)]));
  const hidden = new Map(directions.map((direction) => [direction, totalLength(look(direction).hidden)]));
  const weighed = candidates().map(({ main, beside, views }) => {
    const all = views.map(directionOf);
    const best = sizes.map((_, k) => Math.max(...all.map((direction) => merits.get(direction)![k]!)));
    return {
      main,
      beside,
      count: all.length,
      met: best.reduce((sum, merit) => sum + Math.min(3, merit), 0),
      form: best.reduce((sum, merit) => sum + merit, 0),
      edges: lengths.reduce(
        (sum, length, k) => sum + (all.some((direction) => shown.get(direction)![k]) ? length : 0),
        0,
      ),
      inMain: merits.get(main)!.reduce((sum, merit) => sum + merit, 0),
      hidden: all.reduce((sum, direction) => sum + hidden.get(direction)!, 0),
      upright: views.filter((view) => dot(view.up, [0, 0, 1]) > 0.9).length - directions.indexOf(main) / 10,
    };
  });
  const most = (of: (one: (typeof weighed)[number]) => number, among = weighed): number =>
    Math.max(...among.map(of));
  const whole = weighed.filter(({ met }) => met >= most((one) => one.met) - 0.25);
  const full = whole.filter(({ edges: seen }) => seen >= (1 - SPARED) * most((one) => one.edges, whole));
  const fewest = Math.min(...full.map(({ count }) => count));
  const few = full.filter(({ count }) => count === fewest);
  const merit = ({ form, inMain, edges: seen, hidden: behind, upright }: (typeof weighed)[number]): number =>
    4 * form + inMain + 2 * upright + (seen - behind / 2) / (0.05 * most((one) => one.edges) + 1e-9);
  const ranked = [...few].sort((a, b) => merit(b) - merit(a) || few.indexOf(a) - few.indexOf(b));
  // Of each way to lie on the paper the best: side by side, one above the other, both.
  const lying = (one: ChosenSides): string => one.beside.map((side) => runs[side]).join();
  return ranked.filter((one, k) => ranked.findIndex((other) => lying(other) === lying(one)) === k);
}

function candidates(): (ChosenSides & { readonly views: readonly View[] })[] {
  const level: readonly (Beside | null)[] = ['left', 'right', null];
  const upright: readonly (Beside | null)[] = ['above', 'below', null];
  return directions.flatMap((main) =>
    level.flatMap((one) =>
      upright.flatMap((other) => {
        const beside = [one, other].filter((side) => side !== null);
        if (beside.length === 0) return [];
        const view = viewOf(main);
        return [{ main, beside, views: [view, ...beside.map((side) => viewBeside(view, side))] }];
      }),
    ),
  );
}

const totalLength = (lines: readonly Segment[]): number =>
  lines.reduce((sum, [p, q]) => sum + Math.hypot(q[0] - p[0], q[1] - p[1]), 0);
