import { vectorText } from './jscad.ts';
import { prism } from './primitives.ts';
import { type Shape, union } from './shape.ts';
import type { Contour, Vec2 } from './vector.ts';

interface LetteringOptions {
  /** Height of a capital, mm. */
  readonly height: number;
  /** Width of a stroke, mm. */
  readonly stroke: number;
  /** Middle of the line of text. */
  readonly centre: Vec2;
  /** Along z, mm. */
  readonly from: number;
  readonly to: number;
}

/** Corners of the round end of a stroke: enough to be round at the size of a letter. */
const ROUND = 6;

/** A line of text as a solid in the plane of x and y, one prism with round ends for each straight piece of a stroke, in
 *  the plain strokes of the geometry library's font. Printable ASCII only; throws `RangeError` for anything else, for
 *  nothing to write, and for strokes wider than a fifth of the height, which close the eyes of letters. */
export function lettering(text: string, { height, stroke, centre, from, to }: LetteringOptions): Shape {
  if (!/^[\x21-\x7e]([\x20-\x7e]*[\x21-\x7e])?$/.test(text))
    throw new RangeError(`lettering requires letters, digits and signs of ASCII (given "${text}")`);
  if (!(stroke > 0 && stroke <= height / 5))
    throw new RangeError(
      `lettering requires strokes of at most a fifth of its height (stroke ${stroke} mm, height ${height} mm)`,
    );
  const lines = strokesOf(text, height);
  const [low, high] = boxOf(lines);
  const shift = (p: Vec2): Vec2 => [
    p[0] - (low[0] + high[0]) / 2 + centre[0],
    // The middle of a capital, so that a tail below the line does not lift the rest.
    p[1] - height / 2 + centre[1],
  ];
  const pieces = lines.flatMap((line) =>
    line.slice(1).map((q, k) => prism('z', strip(shift(line[k]!), shift(q), stroke), from, to)),
  );
  return union(...pieces);
}

/** Width of a line of text, mm, strokes included. */
export function letteringWidth(text: string, height: number, stroke: number): number {
  const [low, high] = boxOf(strokesOf(text, height));
  return high[0] - low[0] + stroke;
}

/** What the font calls height, over the height of its capitals. */
const OF_CAPITAL = 14 / 21;

const strokesOf = (text: string, height: number): readonly (readonly Vec2[])[] =>
  vectorText({ height: height * OF_CAPITAL }, text).filter((line) => line.length > 1);

function boxOf(lines: readonly (readonly Vec2[])[]): [Vec2, Vec2] {
  const [xs, ys] = [0, 1].map((k) => lines.flatMap((line) => line.map((p) => p[k]!))) as [number[], number[]];
  return [
    [Math.min(...xs), Math.min(...ys)],
    [Math.max(...xs), Math.max(...ys)],
  ];
}

/** Everything within half a stroke of the line from p to q, counter-clockwise. */
function strip(p: Vec2, q: Vec2, stroke: number): Contour {
  const along = Math.atan2(q[1] - p[1], q[0] - p[0]);
  const end = (of: Vec2, start: number): Vec2[] =>
    Array.from({ length: ROUND + 1 }, (_, k) => {
      const angle = start + (Math.PI * k) / ROUND;
      return [of[0] + (stroke / 2) * Math.cos(angle), of[1] + (stroke / 2) * Math.sin(angle)];
    });
  return [...end(q, along - Math.PI / 2), ...end(p, along + Math.PI / 2)];
}
