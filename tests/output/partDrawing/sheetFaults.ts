import { textWidth } from '../../../src/output/drawing/index.ts';
import type { Point, ReadSheet, ReadText } from './readSheet.ts';

/** Rectangles on the paper that texts may take, by an upper estimate of their width. */
function boxOf({ words: said, height, at, along, anchor }: ReadText): {
  middle: Point;
  along: Point;
  half: Point;
} {
  const width = textWidth(said, height);
  const shift = anchor === 'middle' ? 0 : width / 2;
  return {
    middle: [
      at[0] + shift * along[0] - (height / 2) * along[1],
      at[1] + shift * along[1] + (height / 2) * along[0],
    ],
    along,
    half: [width / 2, height / 2],
  };
}

/** What is wrong with a sheet to the eye, in words: texts that touch, lines through texts, marks outside of the frame. */
export function faultsOf(sheet: ReadSheet): string[] {
  const faults: string[] = [];
  const frame = sheet.lines.filter(({ mark }) => mark === 'frame').flatMap(({ line }) => line);
  const inside = ([x, y]: Point): boolean =>
    x >= 20 - 0.01 && x <= sheet.paper[0] - 9.99 && y >= 9.99 && y <= sheet.paper[1] - 9.99;
  if (frame.length < 8) faults.push('there is no frame');
  const boxes = sheet.texts.map((one) => ({ one, box: boxOf(one) }));
  boxes.forEach(({ one, box }, k) => {
    const { middle, along, half } = box;
    const corner = (u: number, v: number): Point => [
      middle[0] + u * half[0] * along[0] - v * half[1] * along[1],
      middle[1] + u * half[0] * along[1] + v * half[1] * along[0],
    ];
    const corners = [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)] as const;
    // Bold ones are set by a width of their own.
    if (!corners.every(inside)) faults.push(`"${one.words}" leaves the frame`);
    const samples = corners.flatMap((p, n) => {
      const q = corners[(n + 1) % 4]!;
      return [0, 0.25, 0.5, 0.75].map((t): Point => [p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]);
    });
    for (const other of boxes.slice(k + 1)) {
      if ([...samples, middle].some((p) => within(p, other.box)) || within(other.box.middle, box))
        faults.push(`"${one.words}" meets "${other.one.words}"`);
    }
    for (const { line, mark } of sheet.lines) {
      const [p, q] = line;
      const steps = Math.max(2, Math.ceil(Math.hypot(q[0] - p[0], q[1] - p[1]) / 0.4));
      for (let n = 0; n <= steps; n++) {
        if (!within([p[0] + (n / steps) * (q[0] - p[0]), p[1] + (n / steps) * (q[1] - p[1])], box)) continue;
        faults.push(`a line of kind ${mark} runs through "${one.words}"`);
        break;
      }
    }
  });
  for (const { mark, line } of sheet.lines)
    if (mark !== 'frame' && !line.every(inside)) faults.push(`a line of kind ${mark} leaves the frame`);
  return faults;
}

function within([x, y]: Point, { middle, along, half }: ReturnType<typeof boxOf>): boolean {
  const [dx, dy] = [x - middle[0], y - middle[1]];
  const hair = 0.05;
  return (
    Math.abs(dx * along[0] + dy * along[1]) < half[0] - hair &&
    Math.abs(dy * along[0] - dx * along[1]) < half[1] - hair
  );
}
