import type { Vec2 } from '../../solid/vector.ts';
import { type Box, scales } from '../drawing/index.ts';
import type { DrawnViews, ViewsAtScale } from './drawnViews.ts';
import { NOTES_HEIGHT } from './notesSvg.ts';
import { margin, type Paper, papers, TITLE_WIDTH } from './paper.ts';
import { TITLE_HEIGHT } from './titleBlockSvg.ts';

/** Kept free within the frame and between pictures, mm. */
const RIM = 4;
const GAP = 8;
/** For the words under a picture, mm. */
export const CAPTION = 7;
/** A part up to this is drawn larger than it is, and no longer than this on paper, mm. */
const enlarging = { part: 45, paper: 90 } as const;

/** Something drawn in its own frame, and the place of its origin on the sheet. */
export interface Set<T> {
  readonly of: T;
  readonly place: Readonly<Vec2>;
}

/** Where everything stands. */
export interface SheetLayout {
  readonly views: DrawnViews;
  readonly paper: Paper;
  readonly frame: Box;
  readonly main: Set<ViewsAtScale>;
  /** The part in full size, where the views are not. */
  readonly fullSize: Set<ViewsAtScale> | null;
  /** Room for the picture in the round; null where none is left. */
  readonly inTheRound: Box | null;
}

/** Pictures in the round from large to small, mm; the last, none, where the sheet is full. */
const rounds: readonly (readonly [number, number] | null)[] = [[62, 50], [50, 40], [40, 32], null];

/** Finds paper, scale and choice of views: enlarged on A4 when the part is small, else 1:1 on A4, 1:1 on A3, and only then smaller (ISO 5455:1979, clause
 *  4, with the full size beside an enlarged one as its clause 5 advises; clause numbers from memory). Throws `RangeError`. */
export function layOut(choices: readonly (() => DrawnViews)[]): SheetLayout {
  const { seen } = choices[0]!();
  const extent = Math.max(...seen.map(({ box: { min, max } }) => Math.max(max[0] - min[0], max[1] - min[1])));
  const small = scales.filter((s) => s > 1 && extent < enlarging.part && extent * s <= enlarging.paper);
  const tries: readonly (readonly [number, Paper])[] = [
    ...small.map((s) => [s, 'A4'] as const),
    ...scales.filter((s) => s <= 1).flatMap((s) => [[s, 'A4'] as const, [s, 'A3'] as const]),
  ];
  for (const [scale, paper] of tries) {
    // Nothing is gained by placing dimensions around what is too large by itself.
    if (extent * scale > papers[paper][0]) continue;
    for (const choice of choices) {
      const views = choice();
      const fullSize = scale > 1 ? views.bare() : null;
      for (const round of rounds) {
        const layout = onPaper(paper, views.at(scale), fullSize, round);
        if (layout) return { views, ...layout };
      }
    }
  }
  throw new RangeError(`layOut requires a part that fits A3 at 1:100 (${extent.toFixed(0)} mm long)`);
}

const sizeOf = ({ min, max }: Box): Vec2 => [max[0] - min[0], max[1] - min[1]];

function onPaper(
  paper: Paper,
  main: ViewsAtScale,
  fullSize: ViewsAtScale | null,
  round: readonly [number, number] | null,
): Omit<SheetLayout, 'views'> | null {
  const [width, height] = papers[paper];
  const frame: Box = { min: [margin.left, margin.other], max: [width - margin.other, height - margin.other] };
  const foot = frame.min[1] + TITLE_HEIGHT + NOTES_HEIGHT;
  const beside = paper === 'A3';
  // Pictures stand in a row above the notes, on A3 to the left of them.
  const [left, right] = [frame.min[0] + RIM, (beside ? frame.max[0] - TITLE_WIDTH : frame.max[0]) - RIM];
  const low = (beside ? frame.min[1] : foot) + RIM;
  const plain = fullSize ? sizeOf(fullSize.box) : null;
  const pictures = [...(plain ? [[plain[0], plain[1] + CAPTION] as const] : []), ...(round ? [round] : [])];
  const wide = pictures.reduce((sum, [w]) => sum + w, 0) + GAP * Math.max(0, pictures.length - 1);
  if (wide > right - left) return null;
  const row = pictures.length === 0 ? 0 : Math.max(...pictures.map(([, h]) => h));
  const bottom = Math.max(foot, row === 0 ? 0 : low + row) + RIM;
  const room: Box = { min: [frame.min[0] + RIM, bottom], max: [frame.max[0] - RIM, frame.max[1] - RIM] };
  const [needs, has] = [sizeOf(main.box), sizeOf(room)];
  if (needs[0] > has[0] || needs[1] > has[1]) return null;
  const middleOf = ({ min, max }: Box): Vec2 => [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2];
  const centred = (box: Box, [x, y]: Vec2): Vec2 => {
    const [u, v] = middleOf(box);
    return [x - u, y - v];
  };
  const spare = right - left - wide;
  const share = spare / (pictures.length + 1);
  const roundLeft = right - share - (round?.[0] ?? 0);
  return {
    paper,
    frame,
    main: { of: main, place: centred(main.box, middleOf(room)) },
    fullSize: fullSize && {
      of: fullSize,
      place: centred(fullSize.box, [left + share + plain![0] / 2, low + CAPTION + (row - CAPTION) / 2]),
    },
    inTheRound: round && { min: [roundLeft, low], max: [roundLeft + round[0], low + row] },
  };
}
