import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { project, type ViewName, viewOf } from '../../../src/output/drawing/index.ts';
import { encodePng, frameOf, picture, type Sitter } from '../../../src/output/picture/index.ts';
import { type Mesh, vertexAt } from '../../../src/solid/mesh.ts';
import { block, cylinder } from '../../../src/solid/primitives.ts';
import { latchBracket, latchValues } from '../latchBracket.ts';
import { meshOfShape } from '../solids.ts';

const [width, height] = [240, 180];
// Paper and ink as page and drawings have them.
const paper = [0xf6, 0xf4, 0xee];
const ink = [0x1b, 0x24, 0x30];

const part = (mesh: Mesh): Sitter => ({ mesh, style: 'part' });
const ghost = (mesh: Mesh): Sitter => ({ mesh, style: 'ghost' });

/** Pixels of the picture after a round trip through PNG, read by an independent library. */
function shown(sitters: readonly Sitter[], view: ViewName): (x: number, y: number) => number[] {
  const png = PNG.sync.read(Buffer.from(encodePng(picture(sitters, { width, height, view }), width, height)));
  expect([png.width, png.height]).toEqual([width, height]);
  return (x, y) => [...png.data.subarray(4 * (y * width + x), 4 * (y * width + x) + 3)];
}

const difference = (a: readonly number[], b: readonly number[]): number =>
  Math.max(...a.map((c, k) => Math.abs(c - b[k]!)));

/** Where a point of a mesh falls in the picture, pixels. */
function pixelOf(
  sitters: readonly Sitter[],
  name: ViewName,
): (p: readonly [number, number, number]) => [number, number] {
  const view = viewOf(name);
  const of = (style: Sitter['style']) => sitters.filter((s) => s.style === style).map(({ mesh }) => mesh);
  const { scale, middle } = frameOf(of('part'), of('ghost'), view, width, height);
  return (p) => {
    const [x, y] = project(view, [...p]);
    return [width / 2 + scale * (x - middle[0]), height / 2 - scale * (y - middle[1])];
  };
}

describe('picture', () => {
  const bracket = meshOfShape(latchBracket.shape(latchValues() as never, { rod: 2.7, pin: 4.93 }));

  // Ground shadows fall only where the bed is seen, so from below and from the side all that is not paper is the part.
  it.each(['front', 'right', 'isometricBelow'] as const)('covers what its projection covers, %s', (view) => {
    const at = shown([part(bracket)], view);
    const place = pixelOf([part(bracket)], view);
    const points = Array.from({ length: bracket.positions.length / 3 }, (_, v) =>
      place(vertexAt(bracket, v)),
    );
    const inked: [number, number][] = [];
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) if (difference(at(x, y), paper) > 8) inked.push([x, y]);
    for (const k of [0, 1] as const) {
      // A pixel covers from its number to the next.
      expect(
        Math.abs(Math.min(...inked.map((p) => p[k])) - Math.min(...points.map((p) => p[k]))),
      ).toBeLessThan(1.5);
      expect(
        Math.abs(Math.max(...inked.map((p) => p[k] + 1)) - Math.max(...points.map((p) => p[k]))),
      ).toBeLessThan(1.5);
    }
  });

  it('leaves the same rim on opposite sides, and uses the room', () => {
    const place = pixelOf([part(bracket)], 'isometric');
    const points = Array.from({ length: bracket.positions.length / 3 }, (_, v) =>
      place(vertexAt(bracket, v)),
    );
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    const [left, right] = [Math.min(...xs), width - Math.max(...xs)];
    const [top, bottom] = [Math.min(...ys), height - Math.max(...ys)];
    expect(left).toBeCloseTo(right, 6);
    expect(top).toBeCloseTo(bottom, 6);
    expect(Math.min(left, top)).toBeCloseTo(0.08 * height, 6);
  });

  it('shows the mesh in front, whichever comes first', () => {
    const near = meshOfShape(block([0, 0, 0], [10, 1, 10]));
    // Faces of another slope, so that shading tells the two apart.
    const far = meshOfShape(
      cylinder({ axis: 'x', diameter: 9, from: [-3, 12, 3], length: 30, sense: 'shaft' }),
    );
    for (const sitters of [
      [part(near), part(far)],
      [part(far), part(near)],
    ]) {
      const at = shown(sitters, 'front');
      const place = pixelOf(sitters, 'front');
      const [over] = [place([5, 0, 3])].map(([x, y]) => at(Math.floor(x), Math.floor(y)));
      const clear = place([5, 0, 9]);
      expect(over).toEqual(at(Math.floor(clear[0]), Math.floor(clear[1])));
      const beside = place([20, 0, 6]);
      expect(difference(over!, at(Math.floor(beside[0]), Math.floor(beside[1])))).toBeGreaterThan(8);
    }
  });

  it('lays a veil over the part where a ghost is in front of it, and none where it is behind', () => {
    const body = meshOfShape(block([0, 0, 0], [10, 10, 10]));
    const pane = (y: number): Mesh => meshOfShape(block([3, y, -2], [7, y + 0.5, 12]));
    const colour = (sitters: readonly Sitter[]): number[] => {
      const [x, y] = pixelOf(sitters, 'front')([5, 0, 5]);
      return shown(sitters, 'front')(Math.floor(x), Math.floor(y));
    };
    const bare = colour([part(body)]);
    expect(colour([part(body), ghost(pane(20))])).toEqual(bare);
    const veiled = colour([part(body), ghost(pane(-5))]);
    expect(difference(veiled, bare)).toBeGreaterThan(2);
    // Still the part's own blue, only a little darker.
    expect(difference(veiled, bare)).toBeLessThan(40);
    expect(veiled[2]!).toBeGreaterThan(veiled[0]! + 20);
  });

  it('inks edges and leaves faces alone', () => {
    const cube = meshOfShape(block([0, 0, 0], [10, 10, 10]));
    const at = shown([part(cube)], 'isometric');
    const place = pixelOf([part(cube)], 'isometric');
    const face = (p: [number, number, number]): number[] => {
      const [x, y] = place(p);
      return at(Math.floor(x), Math.floor(y));
    };
    const faces = [face([5, 0, 5]), face([10, 5, 5]), face([5, 5, 10])];
    // A stroke is about a pixel wide and may fall half on each of two: darker than either face all the same.
    const [x, y] = place([10, 0, 5]);
    const edge = at(Math.round(x - 0.5), Math.round(y));
    for (const beside of faces.slice(0, 2))
      expect(difference(edge, ink)).toBeLessThan(difference(beside, ink) - 30);
    // Lit from above left: the top is lightest, the right side darkest.
    expect(faces[2]![0]!).toBeGreaterThan(faces[0]![0]!);
    expect(faces[0]![0]!).toBeGreaterThan(faces[1]![0]!);
  });

  it('casts a shadow on the bed only where the bed can be seen', () => {
    const cube = meshOfShape(block([0, 0, 0], [10, 10, 10]));
    const soft = (view: ViewName): number => {
      const at = shown([part(cube)], view);
      let count = 0;
      for (let y = 0; y < height; y++)
        for (let x = 0; x < width; x++) {
          const [r, g, b] = at(x, y);
          const grey = Math.abs(r! - g!) < 12 && Math.abs(g! - b!) < 16;
          if (grey && r! < paper[0]! - 8 && r! > 190) count++;
        }
      return count;
    };
    expect(soft('isometric')).toBeGreaterThan(300);
    expect(soft('isometricBelow')).toBeLessThan(soft('isometric') / 4);
  });

  it('gives the same bytes twice', () => {
    const make = (): Uint8Array => encodePng(picture([part(bracket)], { width, height }), width, height);
    expect(Buffer.from(make()).equals(Buffer.from(make()))).toBe(true);
  });

  it('joins its bands without a seam: one picture, whatever its height', () => {
    const cube = meshOfShape(block([0, 0, 0], [10, 10, 10]));
    const rgba = picture([part(cube)], { width: 120, height: 150, view: 'front' });
    // A face seen square on is one colour from band to band (rows 63 | 64 and 127 | 128).
    const column = Array.from({ length: 150 }, (_, y) =>
      rgba.slice(4 * (y * 120 + 60), 4 * (y * 120 + 60) + 3).join(),
    );
    expect(new Set(column.slice(30, 120)).size).toBe(1);
    expect([...rgba.filter((_, k) => k % 4 === 3)].every((alpha) => alpha === 255)).toBe(true);
  });

  it('refuses sizes that are no whole pixels, and nothing to show', () => {
    for (const size of [0, -1, 1.5, Number.NaN, 1e9])
      expect(() => picture([part(bracket)], { width: size, height: 10 })).toThrow(/1 to 8192 whole pixels/);
    expect(() => picture([], { width: 10, height: 10 })).toThrow(/at least 1 mesh/);
    expect(() => encodePng(new Uint8Array(10), 2, 2)).toThrow(/4 bytes a pixel/);
  });
});
