import { block, hull, prism } from '../../solid/primitives.ts';
import { area, circle, roundedRectangle, type Sense, stadium } from '../../solid/profile.ts';
import { difference, type Shape } from '../../solid/shape.ts';
import type { Contour, Vec2, Vec3 } from '../../solid/vector.ts';
import type { FamilyFinding } from '../familyFinding.ts';
import type { Feature, Made } from '../feature.ts';
import { type Interface, post } from '../interface.ts';
import type { HostPart } from '../machine.ts';
import { type Rule, sane } from '../rule.ts';
import type { Drawn } from '../values.ts';
import { plugId } from './coverPlug.ts';
import { knownRange } from './knownRange.ts';
import {
  openingFields,
  openingOutline,
  openingReach,
  type PanelRow,
  rowCentres,
  rowSpan,
} from './panelOpening.ts';

/** Hollow in the panel around the openings whose floor the plate rests on, mm. */
export interface PanelRecess {
  readonly width: number;
  /** Ignored for a round recess, which a single round or D opening has. */
  readonly height: number;
  readonly depth: number;
}

/** A plate that covers openings from outside, its back on z = 0, mm. */
export interface CoverPlate {
  readonly row: PanelRow;
  /** As drawn, along z. */
  readonly thickness: number;
  /** How far it reaches over the panel beyond the openings; the walls of a recess go before it. */
  readonly overlap: number;
  readonly recess: PanelRecess | null;
  /** Its outer face is to lie level with the panel; else it lies deeper, or there is no recess. */
  readonly flush: boolean;
  /** Half distance of two screws left and right of the openings, and what the plate needs around each; null without. */
  readonly screws: { readonly half: number; readonly around: number } | null;
}

/** Clearance before it is planned, mm: the middle of a free fit. */
const FREE = 0.45;
/** Chamfer of the outer edge, mm: pleasant to the finger, and the spread of the first layer stays inside. */
const CHAMFER = 0.6;
const CORNER = 1.5;
/** Least that the plate must reach over the panel, mm: as drawn, and after everything has gone the wrong way. Common practice, no source. */
const REACHES = { drawn: 1, left: 0.5 } as const;
/** What the size of a print without a fit may be off, as a share: shrink of an uncalibrated printer. Common practice, no source. */
const SHRINK = 0.005;

type PlateForm = 'round' | 'slot' | 'rectangle';

function formOf({ row, recess, screws }: CoverPlate): PlateForm {
  const { form } = row.opening;
  if (row.count > 1) return 'rectangle';
  if (form === 'round' || form === 'D') return recess !== null || screws === null ? 'round' : 'rectangle';
  return form === 'slotted' ? 'slot' : 'rectangle';
}

const middleOf = ({ row, recess, screws }: CoverPlate): number => {
  const { low, high } = openingReach(row.opening);
  return formOf({ row, recess, screws } as CoverPlate) === 'round' ? 0 : (low + high) / 2;
};

/** Size of the plate across x and y, mm: as `sizes` have it, otherwise as it would be drawn. */
export function plateSize(of: CoverPlate, sizes: Drawn): Vec2 {
  const { row, overlap, recess, screws } = of;
  const round = formOf(of) === 'round';
  if (recess !== null) {
    const width = sizes['plate.width'] ?? recess.width - FREE;
    return [width, round ? width : (sizes['plate.height'] ?? recess.height - FREE)];
  }
  const { width, height } = row.opening;
  if (round) return [width + 2 * overlap, width + 2 * overlap];
  const [x, y] = [rowSpan(row) + 2 * overlap, height + 2 * overlap];
  if (screws === null) return [x, y];
  // Around the holes where they are drawn, which a printer whose scale is off puts elsewhere than the machine has them.
  const apart = sizes['screws.spacing'] ?? 2 * screws.half;
  return [Math.max(x, apart + 2 * screws.around), Math.max(y, 2 * screws.around)];
}

function outlineOf(of: CoverPlate, [x, y]: Vec2, by: number, sense: Sense): Contour {
  const size: Vec2 = [x + 2 * by, y + 2 * by];
  const at: Vec2 = [0, middleOf(of)];
  switch (formOf(of)) {
    case 'round':
      return circle(size[0], at, { sense });
    case 'slot':
      return stadium(Math.min(...size), Math.max(...size), at, { sense });
    case 'rectangle': {
      const corner = Math.min(Math.max(CORNER, of.row.opening.corner + 1) + by, Math.min(...size) / 2);
      return roundedRectangle(size, corner, at, { sense });
    }
  }
}

/** Area of the plate's back that lies on the panel, mm^2. */
export const plateBand = (of: CoverPlate, sizes: Drawn): number =>
  area(outlineOf(of, plateSize(of, sizes), 0, 'shaft')) -
  of.row.count * area(openingOutline(of.row.opening, [0, 0], 0, 'bore'));

/** The plate with its fits in a recess (`plate.width`, `plate.height`, `plate.depth` when flush), what rules it, and how far it reaches over the
 *  panel once readings and print have gone the wrong way. What is cut through it comes from other features. Print it outer face down.
 *  @example coverPlate({ row, thickness: 2, overlap: 2, recess: null, flush: false, screws: null }, drawn).interfaces // => [] */
export function coverPlate(of: CoverPlate, drawn: Drawn): Feature {
  const { thickness } = of;
  const size = plateSize(of, drawn);
  const chamfer = Math.min(CHAMFER, thickness / 3);
  return {
    add: () =>
      hull(
        prism('z', outlineOf(of, size, 0, 'shaft'), 0, thickness - chamfer),
        prism('z', outlineOf(of, size, -chamfer, 'shaft'), 0, thickness),
      ),
    interfaces: fitsOf(of, thickness - chamfer),
    rules: rulesOf(of),
    findings: (made) => [overlapFinding(of, made)],
  };
}

function fitsOf(of: CoverPlate, straight: number): Interface[] {
  const { recess, flush, thickness } = of;
  if (recess === null) return [];
  const at: Vec3 = [0, middleOf(of), straight / 2];
  const sideways = { at, axis: [0, 0, -1] as Vec3, length: straight, fit: 'free' } as const;
  const width = { name: 'plate in recess, width', host: recess.width, across: [1, 0, 0] as Vec3 };
  const height = { name: 'plate in recess, height', host: recess.height, across: [0, 1, 0] as Vec3 };
  const deep = { name: 'plate level with the panel', host: recess.depth, across: [0, 0, 1] as Vec3 };
  return [
    post('plate.width', { ...sideways, ...width }),
    ...(formOf(of) === 'round' ? [] : [post('plate.height', { ...sideways, ...height })]),
    // Whole layers come within half a layer of any depth.
    ...(flush
      ? [
          post('plate.depth', {
            ...{ ...deep, at: [0, middleOf(of), thickness / 2], axis: [1, 0, 0], length: recess.width },
            fit: { lo: -0.15, hi: 0.25 },
          }),
        ]
      : []),
  ];
}

function rulesOf(of: CoverPlate): Rule[] {
  const { row, recess, thickness, flush, screws } = of;
  if (recess === null) return [];
  const { low, high } = openingReach(row.opening);
  const [x, y] = plateSize(of, {});
  const wide = screws === null ? rowSpan(row) / 2 + REACHES.drawn : screws.half + screws.around;
  const tall = Math.max(high - middleOf(of), middleOf(of) - low) + REACHES.drawn;
  const field = row.count > 1 ? 'rowWidth' : 'recessWidth';
  const [needsX, needsY] = [2 * wide + FREE, 2 * tall + FREE].map((least) => least.toFixed(2));
  return [
    sane(
      x >= 2 * wide && (formOf(of) !== 'round' || x >= 2 * tall),
      field,
      `leaves no floor for the plate to rest on (at least ${needsX} mm)`,
    ),
    sane(
      formOf(of) === 'round' || y >= 2 * tall,
      'recessHeight',
      `leaves no floor for the plate to rest on (at least ${needsY} mm)`,
    ),
    sane(
      formOf(of) !== 'slot' || recess.width > recess.height,
      'recessHeight',
      `must be below its width around a slotted opening (width ${recess.width.toFixed(2)} mm)`,
    ),
    sane(
      flush || thickness < recess.depth,
      'flange',
      `must be thinner than the recess is deep, or the cover would stand proud (plate ${thickness.toFixed(2)} mm, recess ${recess.depth.toFixed(2)} mm)`,
    ),
  ];
}

function overlapFinding(of: CoverPlate, made: Made): FamilyFinding {
  const { row, recess } = of;
  const { prints, drawn, doubt = {} } = made;
  const fields = openingFields(row.opening.form);
  const size = plateSize(of, recess === null ? drawn : prints);
  const side = (axis: 0 | 1) => {
    const name = axis === 0 ? 'width' : 'height';
    const { low, high } = openingReach(row.opening);
    const host = axis === 0 ? row.opening.width : high - low;
    const reach = axis === 0 ? rowSpan(row) / 2 : Math.max(high - middleOf(of), middleOf(of) - low);
    const id = plugId(row, 0, name);
    // A round plug has one size, which is also its height.
    const known = id in prints ? id : plugId(row, 0, 'width');
    const plate = size[axis] / 2 - (recess === null ? SHRINK * size[axis] : (doubt[`plate.${name}`] ?? 0));
    const shift = (host - (prints[known] ?? host)) / 2 + (doubt[known] ?? 0);
    const wider = (knownRange(made, fields[name], host).hi - host) / 2;
    const pitch =
      axis === 0 && row.count > 1
        ? ((row.count - 1) / 2) * (knownRange(made, 'pitch', row.pitch).hi - row.pitch)
        : 0;
    return { plain: size[axis] / 2 - reach, shift, left: plate - reach - wider - pitch - shift };
  };
  const [x, y] = [side(0), side(1)];
  const worst = x.left <= y.left ? x : y;
  return {
    ...{ id: 'overlap', title: 'reach of the plate over the panel', value: worst.left, limit: REACHES.left },
    ...{ side: 'above', unit: 'mm', source: 'geometry; common practice, no source' },
    because: `drawn to reach ${worst.plain.toFixed(2)} mm past the edge ${worst === x ? 'left and right' : 'above and below'}; with the plug pushed aside by ${worst.shift.toFixed(2)} mm, the largest opening the readings leave and the smallest plate the printer makes, ${worst.left.toFixed(2)} mm are left`,
    remedy:
      recess === null
        ? 'a larger overlap, or read the opening again'
        : 'read opening and recess again: the plate fills the recess',
    at: [0, middleOf(of), 0],
    details: { 'left and right, mm': x.left, 'above and below, mm': y.left },
  };
}

/** How far the panel is drawn beyond the plate, mm. */
const PANEL = 9;

/** The panel around the plate, as measured: openings, recess, holes of the screws. The plate rests on it. */
export function panelAround(
  of: CoverPlate,
  thickness: number,
  screw: number,
  meets: readonly string[],
): HostPart {
  const { row, recess, screws } = of;
  const size: Vec2 =
    recess === null
      ? plateSize(of, {})
      : [recess.width, formOf(of) === 'round' ? recess.width : recess.height];
  const [x, y] = [size[0] / 2 + PANEL, size[1] / 2 + PANEL];
  const m = middleOf(of);
  const top = recess?.depth ?? 0;
  const hollows: Shape[] = rowCentres(row).map((at) =>
    prism('z', openingOutline(row.opening, [at, 0], 0, 'bore'), -thickness - 1, top + 1),
  );
  if (recess !== null) hollows.push(prism('z', outlineOf(of, size, 0, 'bore'), 0, top + 1));
  for (const at of screws === null ? [] : [-screws.half, screws.half])
    hollows.push(prism('z', circle(screw, [at, 0], { sense: 'bore' }), -thickness - 1, top + 1));
  return {
    ...{ id: 'panel', name: 'panel', keepOff: 0, meets, seat: [0, 0, -1] as Vec3 },
    shape: difference(block([-x, m - y, -thickness], [x, m + y, top]), ...hollows),
  };
}
