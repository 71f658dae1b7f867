import type { Vec2, Vec3 } from '../../solid/vector.ts';
import {
  type Box,
  boxAround,
  chains,
  dimensionMarks,
  grown,
  pathData,
  project,
  type Segment,
  scaleName,
  scales,
  type View,
} from '../drawing/index.ts';
import { chooseViews, type DimensionedView } from '../sheet/chooseViews.ts';
import { cutOut, extentOf, glassMachine, type SeenParts } from '../sheet/glassMachine.ts';
import { type NumberedLength, numberedReadings } from '../sheet/numberedReadings.ts';
import type { SheetInput } from '../sheet/sheetInput.ts';
import { easyWindow, leastWindow, nearTo, sizeOf } from '../sheet/windows.ts';
import { type FieldPlace, placeFields } from './placeFields.ts';

/** Lines or fills of one kind, as SVG path data, mm on paper, y down. */
export interface FormPath {
  readonly kind: 'machine-fill' | 'part-fill' | 'machine-hidden' | 'machine' | 'part-hidden' | 'part';
  readonly d: string;
}

/** One view on the sheet. */
export interface FormView {
  readonly title: string;
  /** "5:1". */
  readonly scale: string;
  /** Left, top, width and height, mm on the sheet. */
  readonly place: readonly [number, number, number, number];
  /** Where a point of the part's frame falls on the sheet: `from` plus the products with `right` and `down`, mm. */
  readonly sight: {
    readonly from: Readonly<Vec2>;
    readonly right: Readonly<Vec3>;
    readonly down: Readonly<Vec3>;
  };
  readonly paths: readonly FormPath[];
}

/** One reading: its dimension line and the field for its numbers. */
export interface FormField {
  readonly reading: string;
  /** Number of the reading, from 1 in the order of measuring. */
  readonly number: number;
  /** Absent for what has no place on the drawing, as a mass. */
  readonly dimension?: {
    /** Index of the view it stands in. */
    readonly view: number;
    /** Dimension and extension lines, and arrowheads, as path data. */
    readonly lines: string;
    readonly arrows: string;
    /** Where the jaws touch. */
    readonly touches: readonly [Readonly<Vec2>, Readonly<Vec2>];
    /** Left, top, width and height of the field, mm on the sheet. */
    readonly field: readonly [number, number, number, number];
  };
}

/** The drawing that is the form: views with dimension lines, and on each line the place of the field to type into. */
export interface ReadingForm {
  /** Width and height of the sheet, mm. */
  readonly size: readonly [number, number];
  readonly views: readonly FormView[];
  /** In the order of measuring. */
  readonly fields: readonly FormField[];
}

export interface FormPaper {
  /** Width of the sheet, mm; 90 and more. */
  readonly width: number;
  /** Width and height of a field, mm. */
  readonly field: readonly [number, number];
}

/** Between views, and for the line under each, mm. */
const GAP = 6;
const CAPTION = 7;
/** Enlarged no further than this: beyond, a print's own roughness would be the subject. */
const MOST = 10;
/** A view whose longer side is drawn shorter than this is too small to see at arm's length what is meant, mm. */
const SMALL = 26;
/** What a view without its dimensions may fill of the width of the sheet, and its height, mm. */
const ROOM = { share: 0.62, least: 46, high: 90 } as const;

/** A part with what is to be read of it. */
export interface FormPart {
  /** Of several parts; empty for one alone. */
  readonly name: string;
  /** In the order of measuring, numbered through all parts. */
  readonly lengths: readonly NumberedLength[];
  readonly meshes: SheetInput['meshes'];
}

/** Draws the form for a sheet of some width, readings of the machine on its lines: the part amid the machine. */
export const readingForm = ({ family, values, meshes }: SheetInput, paper: FormPaper): ReadingForm =>
  formOf([{ name: '', lengths: numberedReadings(family, values), meshes }], paper);

/** Draws a form of one part or several. Views as on the measuring sheet: the fewest that show each length in full; what lies
 *  about the part larger than what reaches far into the machine. Views stand in rows. */
export function formOf(parts: readonly FormPart[], paper: FormPaper): ReadingForm {
  const drawn = parts.flatMap((part) => viewsOf(part, paper));
  const readings = parts.flatMap(({ lengths }) => lengths);
  const { size, places } = rows(drawn, paper.width);

  const fields = readings.map(({ key, number }): FormField => {
    for (const [k, { fields: placed, box }] of drawn.entries()) {
      const found = placed.find(({ number: n }) => n === number);
      if (!found) continue;
      const at = onSheet(box, places[k]!);
      const [left, top] = at([found.place.box.min[0], found.place.box.max[1]]);
      const { lines, arrows } = dimensionMarks(found.place.geometry);
      return {
        reading: key,
        number,
        dimension: {
          view: k,
          lines: path(lines, at),
          arrows: path(arrows, at, true),
          touches: [at(found.anchors[0]), at(found.anchors[1])],
          field: [left, top, paper.field[0], paper.field[1]],
        },
      };
    }
    return { reading: key, number };
  });
  return {
    size,
    fields,
    views: drawn.map(({ title, view, scale, seen, box }, k) => {
      const at = onSheet(box, places[k]!);
      const along = (way: Readonly<Vec3>, by: number): Vec3 => [by * way[0], by * way[1], by * way[2]];
      const sight = { from: at([0, 0]), right: along(view.right, scale), down: along(view.up, -scale) };
      return { title, scale: scaleName(scale), place: places[k]!, sight, paths: pathsOf(seen, at) };
    }),
  };
}

/** The views of one part, each with the dimensions it shows. */
function viewsOf({ name, lengths, meshes }: FormPart, paper: FormPaper): DrawnView[] {
  const isNear = nearTo(meshes.part);
  const drawable = lengths.filter(({ callout }) => callout !== null);
  const details = chooseViews(drawable.filter(({ callout }) => callout!.every(isNear)));
  const overviews = chooseViews(drawable.filter(({ callout }) => !callout!.every(isNear)));
  const look = glassMachine(meshes);
  return [...details, ...overviews]
    .flatMap((view) => drawnViews(meshes, view, look(view.view), paper))
    .map((view) => (name === '' ? view : { ...view, title: `${name}, ${view.title}` }));
}

interface DrawnView {
  readonly title: string;
  readonly view: View;
  readonly scale: number;
  readonly seen: SeenParts;
  readonly box: Box;
  readonly crowded: boolean;
  readonly fields: readonly {
    readonly number: number;
    readonly anchors: readonly [Readonly<Vec2>, Readonly<Vec2>];
    readonly place: FieldPlace;
  }[];
}

/** One view with its dimensions; shown twice, with half of them each, where they would stand on one another, or where
 *  they leave it so little room that it is drawn small and smaller than each half would be. */
function drawnViews(
  meshes: SheetInput['meshes'],
  shown: DimensionedView,
  whole: SeenParts,
  paper: FormPaper,
): DrawnView[] {
  const view = drawnView(meshes, shown, whole, paper);
  const { readings } = shown;
  const small = view.scale * Math.max(...sizeOf(leastWindow(meshes.part, shown))) < SMALL;
  if (readings.length < 2 || (!view.crowded && !small)) return [view];
  const half = Math.ceil(readings.length / 2);
  const apart = [readings.slice(0, half), readings.slice(half)].flatMap((some) =>
    drawnViews(meshes, { ...shown, readings: some }, whole, paper),
  );
  return view.crowded || apart.every(({ scale }) => scale > view.scale) ? apart : [view];
}

/** One view with its dimensions, as large as a recommended scale allows in the width. */
function drawnView(
  { part }: SheetInput['meshes'],
  shown: DimensionedView,
  whole: SeenParts,
  { width, field }: FormPaper,
): DrawnView {
  const least = sizeOf(leastWindow(part, shown));
  const room = [Math.max(ROOM.least, ROOM.share * width), ROOM.high] as const;
  const fitting = scales.filter((s) => s <= MOST && least.every((side, k) => side * s <= room[k]!));
  const tries = fitting.length > 0 ? fitting : scales.slice(-1);
  let last: DrawnView | undefined;
  for (const scale of tries) {
    const seen = cutOut(whole, easyWindow(part, shown, room, scale), scale);
    const wanted = shown.readings.map(({ callout }) => ({
      anchors: callout!.map((p) => {
        const [x, y] = project(shown.view, p);
        return [x * scale, y * scale] as const;
      }) as unknown as readonly [Readonly<Vec2>, Readonly<Vec2>],
    }));
    const extent = extentOf(seen);
    const { places: placed, crowded } = placeFields(wanted, extent, field);
    const marks = placed.flatMap(({ geometry, box }) => [
      ...geometry.line,
      ...geometry.extensions.flat(),
      box.min,
      box.max,
    ]);
    const box = grown(boxAround([extent.min, extent.max, ...marks].map(([x, y]) => [x, y] as const)), 1);
    last = {
      ...{ title: shown.title, view: shown.view, scale, seen, box, crowded },
      fields: shown.readings.map(({ number }, k) => ({
        number,
        anchors: wanted[k]!.anchors,
        place: placed[k]!,
      })),
    };
    // Dimensions take room as well; what does not fit is drawn smaller.
    if (sizeOf(box)[0] <= width) return last;
  }
  return last!;
}

type Place = readonly [number, number, number, number];

/** Sets views in rows, left to right, the row in the middle of the sheet. */
function rows(
  views: readonly DrawnView[],
  width: number,
): { readonly size: readonly [number, number]; readonly places: readonly Place[] } {
  const lines: { views: number[]; width: number; height: number }[] = [];
  for (const [k, { box }] of views.entries()) {
    const [w, h] = sizeOf(box);
    const last = lines.at(-1);
    if (last && last.width + GAP + w <= width) {
      last.views.push(k);
      last.width += GAP + w;
      last.height = Math.max(last.height, h);
    } else lines.push({ views: [k], width: w, height: h });
  }
  const places: Place[] = [];
  let top = 0;
  const wide = Math.max(width, ...lines.map((line) => line.width));
  for (const line of lines) {
    let left = (wide - line.width) / 2;
    for (const k of line.views) {
      const [w, h] = sizeOf(views[k]!.box);
      places[k] = [left, top + (line.height - h) / 2, w, h];
      left += w + GAP;
    }
    top += line.height + CAPTION + GAP;
  }
  return { size: [wide, Math.max(0, top - GAP)], places };
}

type OnSheet = (p: Readonly<Vec2>) => Vec2;

/** From a view's own paper, y up, to the sheet, y down. */
const onSheet =
  ({ min, max }: Box, [left, top]: Place): OnSheet =>
  ([x, y]) => [left + x - min[0], top + max[1] - y];

/** Path data on the sheet; `pathData` turns y over, which `at` has done already. */
const path = (lines: Iterable<readonly Readonly<Vec2>[]>, at: OnSheet, closed = false): string => {
  const turned = [...lines].map((line) =>
    line.map((p): Vec2 => {
      const [x, y] = at(p);
      return [x, -y];
    }),
  );
  return pathData(turned, closed);
};

function pathsOf({ part, partRegion, hosts, hostRegion }: SeenParts, at: OnSheet): FormPath[] {
  const lines = (of: readonly Segment[]): string => path(chains(of), at);
  const machine = (pick: 'visible' | 'hidden') => hosts.flatMap(({ lines: all }) => all[pick]);
  return (
    [
      { kind: 'machine-fill', d: path(hostRegion, at, true) },
      { kind: 'part-fill', d: path(partRegion, at, true) },
      { kind: 'machine-hidden', d: lines(machine('hidden')) },
      { kind: 'machine', d: lines(machine('visible')) },
      { kind: 'part-hidden', d: lines(part.hidden) },
      { kind: 'part', d: lines(part.visible) },
    ] as const
  ).filter(({ d }) => d !== '');
}
