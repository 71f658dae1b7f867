import type { ReportedInterface } from '../../src/job/result.ts';
import type { Manifold } from '../../src/solid/kernel.ts';
import { cross, dot, type Vec2, type Vec3 } from '../../src/solid/vector.ts';

type Where = Pick<ReportedInterface, 'id' | 'at' | 'axis' | 'across'>;

/** What callipers would find at each interface of a clip, mm, by id. Everything is read off sections of the solid; `drawn`
 *  and `predicted` are not looked at. `solid` is on the bed, as the interfaces are. */
export function measuredSizes(solid: Manifold, interfaces: readonly Where[]): Record<string, number> {
  const sizes: Record<string, number> = {};
  const at = (id: string) => interfaces.find((one) => one.id === id);
  for (const id of ['socket.width', 'socket.length']) {
    const post = at(id);
    if (post) sizes[id] = extent(across(sectionAt(solid, post), 0), 'solid');
  }
  const mouth = at('mouth');
  if (mouth) sizes.mouth = extent(across(sectionAt(solid, mouth), 0), 'open');

  const bar = at('bar')!;
  // Up in this section is up in the machine.
  const section = sectionAt(solid, bar);
  const sideways = section.map((outline) => outline.map(([u, v]): Vec2 => [v, u]));
  const { overall, level } = widest(sideways);
  const [, top] = nearest(across(section, 0));
  sizes.bar = mouth ? 2 * (top - level) : extent(across(section, 0), 'open');
  if (at('bar.run')) sizes['bar.run'] = overall;
  // The shoulder, beside the post and above the outer end of the slot.
  const post = sizes['socket.width']!;
  const lines = [-1, 1].flatMap((side) => [0.1, 0.15, 0.2].map((beyond) => side * (post / 2 + beyond)));
  // The slot's middle lies off the post's by as much as it slides.
  const off = dot(
    [...bar.at].map((x, k) => x - at('socket.width')!.at[k]!) as Vec3,
    cross(bar.axis, bar.across),
  );
  sizes.drop = Math.max(...lines.map((v) => across(section, v - off).at(-1) ?? Number.NaN)) - level;
  return sizes;
}

/** Width at the widest level of a hollow and the middle of the levels where it is that wide: the height of its axis,
 *  for its flats lie square to the axes. */
function widest(outlines: readonly Vec2[][]): { overall: number; level: number } {
  const levels: { level: number; width: number }[] = [];
  for (let level = -0.25; level <= 0.25; level += 5e-4) {
    const [low, high] = nearest(across(outlines, level));
    levels.push({ level, width: high - low });
  }
  const overall = Math.max(...levels.map(({ width }) => width));
  const flat = levels.filter(({ width }) => width > overall - 1e-4).map(({ level }) => level);
  return { overall, level: (flat[0]! + flat.at(-1)!) / 2 };
}

/** The section of a solid through the middle of an interface, square to its axis, as outlines in (across, beside) about
 *  that middle, mm. */
export function sectionAt(solid: Manifold, { at, axis, across: u }: Where): Vec2[][] {
  const rows = [u, cross(axis, u), axis];
  const column = (k: 0 | 1 | 2): [number, number, number, number] => [
    rows[0]![k],
    rows[1]![k],
    rows[2]![k],
    0,
  ];
  const [a, b, c] = rows.map((row) => -dot(row, at));
  const turned = solid.transform([...column(0), ...column(1), ...column(2), a!, b!, c!, 1]);
  const cut = turned.slice(0);
  const outlines = cut.toPolygons() as Vec2[][];
  cut.delete();
  turned.delete();
  return outlines;
}

/** Where the line `beside` = `level` crosses the outlines, in order. */
function across(outlines: readonly Vec2[][], level: number): number[] {
  const found: number[] = [];
  for (const outline of outlines) {
    for (let k = 0; k < outline.length; k++) {
      const [p, q] = [outline[k]!, outline[(k + 1) % outline.length]!];
      if (p[1] > level === q[1] > level) continue;
      found.push(p[0] + ((level - p[1]) / (q[1] - p[1])) * (q[0] - p[0]));
    }
  }
  return found.sort((a, b) => a - b);
}

/** Crossings next to the middle on either side. */
const nearest = (crossings: readonly number[]): [number, number] => [
  crossings.filter((x) => x < 0).at(-1) ?? Number.NaN,
  crossings.find((x) => x >= 0) ?? Number.NaN,
];

/** Between the crossings next to the middle, which must lie in material or in the open; else NaN. */
function extent(crossings: readonly number[], where: 'solid' | 'open'): number {
  const inside = crossings.filter((x) => x < 0).length % 2 === 1;
  const [low, high] = nearest(crossings);
  return inside === (where === 'solid') ? high - low : Number.NaN;
}
