import type { Vec2 } from '../../solid/vector.ts';
import {
  boxAround,
  dimensioning,
  dimensionSvg,
  grown,
  placeDimensions,
  project,
  scaleFor,
  scaleName,
  svgDocument,
  viewOf,
} from '../drawing/index.ts';
import { chooseViews, type DimensionedView } from './chooseViews.ts';
import { cutOut, extentOf, glassMachine, seenSvg, withoutHidden } from './glassMachine.ts';
import { namedParts } from './namedParts.ts';
import type { NumberedReading } from './numberedReadings.ts';
import type { SheetInput } from './sheetInput.ts';
import { easyWindow, leastWindow, nearTo, sizeOf } from './windows.ts';

/** One drawing of the sheet. */
export interface Figure {
  readonly title: string;
  /** "5:1"; null where nothing may be measured off, as in an isometric view. */
  readonly scale: string | null;
  readonly svg: string;
  /** Width and height, mm on paper. */
  readonly size: readonly [number, number];
  /** Numbers of the readings dimensioned in it. */
  readonly numbers: readonly number[];
}

/** Room for what is drawn, without its dimensions, mm on paper: what it must not exceed, and up to where more of
 *  the machine is shown. */
interface Room {
  readonly must: readonly [number, number];
  readonly ease: readonly [number, number];
}
const room = {
  detail: { must: [112, 104], ease: [90, 74] },
  overview: { must: [140, 80], ease: [60, 50] },
  realSize: { must: [70, 50], ease: [70, 50] },
} as const satisfies Readonly<Record<string, Room>>;

/** Sizes of the picture in the round, the larger where it fits. */
const whole = [
  [76, 60],
  [66, 46],
  [58, 40],
] as const;
/** Enlarged no further than this: beyond, a print's own roughness would be the subject. */
const MOST = 10;
/** What the frame on the first page holds, mm: A4 less margins, heading, title block and rim. */
const frame = [179, 212] as const;
/** Between figures, for the line under each, and for a letter in it, mm; what the page's style asks for. */
const spacing = { gap: [6, 3], caption: 7, letter: 2 } as const;

/** The sheet's drawings: the part in the machine with names, the part at 1:1 to lay a print on, and where each
 *  reading is taken: on a small scale those that reach far into the machine, then details. All on
 *  one page where a scale of at least 2:1 (of the details) makes that possible. */
export function figures(input: SheetInput, readings: readonly NumberedReading[]): Figure[] {
  const { part } = input.meshes;
  const draw = drawer(input);
  const isNear = nearTo(part);
  const drawable = readings.filter(({ callout }) => callout !== null);
  const details = chooseViews(drawable.filter(({ callout }) => callout!.every(isNear)));
  const overviews = chooseViews(drawable.filter(({ callout }) => !callout!.every(isNear)));
  const distant = draw.inOneScale(overviews, room.overview, 1);
  const arranged = (most: number): Figure[][] => {
    const near = draw.inOneScale(details, room.detail, most);
    const realSize = [...near, ...distant].some(({ scale }) => scale === '1:1') ? [] : draw.realSize();
    return whole.flatMap((size) => {
      const inTheRound = draw.inTheRound(size);
      return [
        [inTheRound, ...realSize, ...near, ...distant],
        [inTheRound, ...realSize, ...distant, ...near],
      ];
    });
  };
  const best = arranged(MOST);
  return [best, arranged(5), arranged(2)].flat().find(fitOnePage) ?? best[0]!;
}

/** Whether figures set in rows, as the page sets them, fill no more than the frame. */
function fitOnePage(of: readonly Figure[]): boolean {
  let [used, width, row] = [0, 0, 0];
  for (const { title, scale, size } of of) {
    const own = Math.max(size[0], spacing.letter * `${title} ${scale ?? ', not to scale'}`.length);
    if (width > 0 && width + spacing.gap[0] + own > frame[0]) {
      used += row + spacing.gap[1];
      [width, row] = [0, 0];
    }
    width += (width > 0 ? spacing.gap[0] : 0) + own;
    row = Math.max(row, size[1] + spacing.caption);
  }
  return used + row <= frame[1];
}

function drawer({ family, meshes }: SheetInput) {
  const { part } = meshes;
  const look = glassMachine(meshes);

  /** The part at 1:1; none where it is too large for the paper. */
  const realSize = (): Figure[] => {
    const plain = { title: 'real size, from the front', view: viewOf('front'), readings: [] };
    const { must, ease } = room.realSize;
    return sizeOf(leastWindow(part, plain)).every((side, k) => side <= must[k]!)
      ? [dimensioned(plain, ease, 1)]
      : [];
  };

  const inTheRound = (paperSize: readonly [number, number]): Figure => {
    const plain = { view: viewOf('isometric'), readings: [] };
    const window = easyWindow(part, plain, [Infinity, Infinity], 1);
    const scale = Math.min(...sizeOf(window).map((side, k) => paperSize[k]! / side));
    const seen = cutOut(withoutHidden(look(plain.view)), window, scale);
    const { svg, box } = namedParts(seen);
    const paper = grown(box, 1);
    return {
      title: 'the part in the machine',
      scale: null,
      size: sizeOf(paper),
      svg: svgDocument(paper, `${family.title} in the machine`, [...seenSvg(seen), ...svg]),
      numbers: [],
    };
  };

  const inOneScale = (views: readonly DimensionedView[], { must, ease }: Room, most: number): Figure[] => {
    if (views.length === 0) return [];
    const scale = Math.min(...views.map((view) => scaleFor(sizeOf(leastWindow(part, view)), must, most)));
    const drawn = views.map((view) => dimensioned(view, ease, scale));
    // Many dimensions may need more room than was set aside; a figure shrunk to fit would lie about its scale.
    const fits = drawn.every(({ size }) => size.every((side, k) => side <= frame[k]!));
    return fits ? drawn : inOneScale(views, { must, ease }, scale * 0.999);
  };

  const dimensioned = (shown: DimensionedView, paper: Room['ease'], scale: number): Figure => {
    const { title, view, readings } = shown;
    const seen = cutOut(look(view), easyWindow(part, shown, paper, scale), scale);
    const extent = extentOf(seen);
    const onPaper = (p: NonNullable<NumberedReading['callout']>[number]): Vec2 => {
      const [x, y] = project(view, p);
      return [x * scale, y * scale];
    };
    const placed = placeDimensions(
      readings.map(({ number, callout }) => ({
        number,
        anchors: [onPaper(callout![0]), onPaper(callout![1])] as const,
      })),
      extent,
    );
    const marks = placed.flatMap(({ geometry }) => [
      ...geometry.line,
      ...geometry.extensions.flat(),
      ...(geometry.balloon ? [geometry.balloon] : []),
    ]);
    const paperBox = grown(
      boxAround([extent.min, extent.max, ...marks].map(([x, y]) => [x, y] as const)),
      placed.length > 0 ? dimensioning.balloonRadius + 0.5 : 1,
    );
    return {
      title,
      scale: scaleName(scale),
      size: sizeOf(paperBox),
      svg: svgDocument(paperBox, `${family.title}, ${title}, ${scaleName(scale)}`, [
        ...seenSvg(seen),
        ...placed.flatMap(({ dimension, geometry }) => dimensionSvg(dimension, geometry)),
      ]),
      numbers: readings.map(({ number }) => number),
    };
  };

  return { realSize, inTheRound, inOneScale };
}
