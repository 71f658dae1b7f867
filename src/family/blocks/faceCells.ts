import { openingReach, type PanelOpening, type PanelRow, rowCentres } from './panelOpening.ts';

/** A rectangle on the face of a cover that one thing may fill, within an opening, mm. */
export interface FaceCell {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Side of the square in a circle, over its diameter. */
const SQUARE = Math.SQRT1_2;

/** What goes through a cell keeps this far from its edges, mm. */
export const CELL_EDGE = 1;

/** Shares the face out: things go into the openings from left to right, and what is left shares the last one. `margin` mm, x and y,
 *  is kept free at the edges of each opening, for the walls and arms behind.
 *  @example one opening of 34 x 22: faceCells(row, ['connector', 'label'], [2, 2]).label // => { x: 7.5, y: 0, width: 15, height: 18 } */
export function faceCells<const T extends string>(
  row: PanelRow,
  things: readonly T[],
  margin: readonly [number, number],
): Partial<Record<T, FaceCell>> {
  const { form, width, height } = row.opening;
  const { low, high } = openingReach(row.opening);
  // In a round opening things have the square in it, in a D what its flat leaves of that; with round ends the part between the
  // ends and a little more.
  const round = form === 'round' || form === 'D';
  const inner = round ? SQUARE * width : form === 'slotted' ? width - height * (1 - SQUARE) : width;
  const [bottom, top] = round
    ? [(-SQUARE * width) / 2, Math.min(high, (SQUARE * width) / 2)]
    : form === 'slotted'
      ? [low * SQUARE, high * SQUARE]
      : [low, high];
  const [y, tall] = [(bottom + top) / 2, top - bottom];
  const centres = rowCentres(row);
  const last = centres.length - 1;
  const cells: Partial<Record<T, FaceCell>> = {};
  things.forEach((thing, k) => {
    const home = Math.min(k, last);
    const sharing = things.filter((_, other) => Math.min(other, last) === home).length;
    const place = home === last ? k - last : 0;
    const wide = (inner - 2 * margin[0]) / sharing;
    const x = centres[home]! + (place - (sharing - 1) / 2) * wide;
    cells[thing] = { x, y, width: wide, height: tall - 2 * margin[1] };
  });
  return cells;
}

/** A cell made smaller on every side, so that what goes through its corners keeps off the round ones of an opening too. With R the
 *  radius of these less the least margin, and p and q what R has beyond the way from their square corner to a corner of
 *  what goes through, it is smaller by s where (p - s)^2 + (q - s)^2 = R^2. */
export function clearOfCorners(
  cell: FaceCell,
  { corner }: PanelOpening,
  margin: readonly [number, number],
): FaceCell {
  const least = Math.min(...margin);
  const radius = Math.max(0, corner - least);
  const [p, q] = [radius - (margin[0] - least + CELL_EDGE), radius - (margin[1] - least + CELL_EDGE)];
  const beyond = p ** 2 + q ** 2 - radius ** 2;
  if (p <= 0 || q <= 0 || beyond <= 0) return cell;
  const by = (p + q - Math.sqrt((p + q) ** 2 - 2 * beyond)) / 2;
  return { ...cell, width: cell.width - 2 * by, height: cell.height - 2 * by };
}
