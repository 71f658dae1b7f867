import type { Manifold } from '../../src/solid/kernel.ts';
import { area } from '../../src/solid/profile.ts';
import { dot, type Vec2, type Vec3 } from '../../src/solid/vector.ts';

interface Where {
  readonly id: string;
  readonly kind: string;
  readonly at: Vec3;
  readonly across: Vec3;
  /** What stands at the far end of a step, mm from `at` along `across`: where to look for the other feature. */
  readonly host: number;
}

/** The openings, as read: of which form, how far apart, mm; Infinity for one. */
interface Row {
  readonly form: string;
  readonly pitch: number;
}

/** How far from where it should be a feature is looked for, mm: shrink moves it. */
const NEAR = 2;

/** What callipers would find at each interface of a cover that lies face down, mm, by id. Everything is read off level sections of the
 *  solid, and of the thickness off a plumb line; `drawn` and `predicted` are not looked at. */
export function measuredCover(
  solid: Manifold,
  interfaces: readonly Where[],
  row: Row,
): Record<string, number> {
  return Object.fromEntries(interfaces.map((one) => [one.id, measured(solid, one, row)]));
}

function measured(solid: Manifold, where: Where, { form, pitch }: Row): number {
  const { id, at, across, host } = where;
  if (id === 'plate.depth') return thicknessBeside(solid, at);
  const outlines = sectionAt(solid, at[2]);
  if (id.startsWith('plate.')) return extent(outlines.flat(), across);
  if (where.kind === 'step') {
    const far: Vec3 = [at[0] + across[0] * host, at[1] + across[1] * host, at[2]];
    const middle = (place: Vec3): number =>
      id.startsWith('screws')
        ? centreOf(holeAround(outlines, place))[0]
        : centreOf(plugAround(outlines, place, pitch))[0];
    return Math.abs(middle(at) - middle(far));
  }
  if (id.startsWith('connector') || id.startsWith('screws')) return extent(holeAround(outlines, at), across);
  const plug = plugAround(outlines, at, pitch);
  if (form !== 'D' || !id.endsWith('height')) return extent(plug, across);
  // The round of a D is open for an arm where it is lowest, so it is taken to be as low as it is wide.
  const width = extent(plug, [1, 0, 0]);
  const right = Math.max(...plug.map(([x]) => x));
  const widest = plug.filter(([x]) => x > right - 1e-4).map(([, y]) => y);
  const level = (Math.min(...widest) + Math.max(...widest)) / 2;
  // The flat is the side that is nearer to the widest level.
  const sides = [Math.max(...plug.map(([, y]) => y)) - level, level - Math.min(...plug.map(([, y]) => y))];
  return Math.min(...sides) + width / 2;
}

function sectionAt(solid: Manifold, z: number): Vec2[][] {
  const cut = solid.slice(z);
  const outlines = cut.toPolygons() as Vec2[][];
  cut.delete();
  return outlines;
}

const extent = (points: readonly Vec2[], across: Vec3): number => {
  const along = points.map(([x, y]) => dot([x, y, 0], across));
  return Math.max(...along) - Math.min(...along);
};

const centreOf = (outline: readonly Vec2[]): Vec2 => {
  const [xs, ys] = [outline.map((p) => p[0]), outline.map((p) => p[1])];
  return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
};

/** The hole in the section whose middle is nearest to a place. */
function holeAround(outlines: readonly Vec2[][], at: Vec3): Vec2[] {
  const off = (outline: Vec2[]) => Math.hypot(centreOf(outline)[0] - at[0], centreOf(outline)[1] - at[1]);
  const holes = outlines.filter((outline) => area(outline) < 0).sort((a, b) => off(a) - off(b));
  return holes[0] !== undefined && off(holes[0]) < NEAR ? holes[0] : [];
}

/** Corners of everything solid about a place: nearer to it along x than to its neighbours, `pitch` mm away. */
const plugAround = (outlines: readonly Vec2[][], at: Vec3, pitch: number): Vec2[] =>
  outlines.flat().filter(([x]) => Math.abs(x - at[0]) < pitch / 2);

/** Height of the plate's back above the bed, beside the plug: on a plumb line near its edge. */
function thicknessBeside(solid: Manifold, at: Vec3): number {
  const { min, max } = solid.boundingBox();
  const x = min[0] + 1.2;
  const hits = solid.rayCast([x, at[1], max[2] + 1], [x, at[1], min[2] - 1]);
  const top = Math.min(...hits.map(({ distance }) => distance));
  return max[2] + 1 - top * (max[2] - min[2] + 2) - min[2];
}
