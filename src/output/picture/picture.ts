import type { Mesh } from '../../solid/mesh.ts';
import type { Vec3 } from '../../solid/vector.ts';
import { facetedSolid } from '../drawing/facetedSolid.ts';
import { type LineView, lineView, type Segment, type View, type ViewName, viewOf } from '../drawing/index.ts';
import { type Colour, line as inkColour, mix, paper, shade, veil } from './colour.ts';
import { frameOf } from './frame.ts';
import { groundShadow } from './groundShadow.ts';
import { type Band, type FlatTriangle, fillStroke, fillTriangle } from './raster.ts';

/** A mesh and how it is shown: the part in full colour, or a ghost of the machine around it. */
export interface Sitter {
  readonly mesh: Mesh;
  readonly style: 'part' | 'ghost';
}

export interface PictureOptions {
  /** Pixels, whole numbers above 0. */
  readonly width: number;
  readonly height: number;
  /** Absent: isometric. */
  readonly view?: View | ViewName;
}

/** Fine cells a pixel, each way. */
const FINE = 3;
/** Pixel rows worked on at once; keeps the fine grid small. */
const ROWS = 64;

/** Shaded picture of solids in parallel projection, as rows of red, green, blue, alpha bytes from the top left.
 *  Facets are shaded by their normals, edges and outlines are inked; ghosts are a thin veil with light lines, in
 *  front of the part as well as behind it. The same input gives the same bytes on one engine; trigonometry may
 *  differ in its last bit between engines. Throws `RangeError` for a size that is no whole number of pixels, or
 *  when there is nothing to show.
 *  @example picture([{ mesh, style: 'part' }], { width: 800, height: 600 }) */
export function picture(sitters: readonly Sitter[], options: PictureOptions): Uint8Array {
  const { width, height } = options;
  if (![width, height].every((n) => Number.isInteger(n) && n > 0 && n <= 8192)) {
    throw new RangeError(`picture requires a size of 1 to 8192 whole pixels (size ${width} x ${height})`);
  }
  if (sitters.length === 0) throw new RangeError('picture requires at least 1 mesh');
  const view = viewOf(options.view ?? 'isometric');
  const scene = sceneOf(sitters, view, width, height);
  const pixels = new Uint8Array(4 * width * height);
  const grid = gridOf(width * FINE * Math.min(ROWS, height) * FINE);
  for (let top = 0; top < height; top += ROWS) {
    const rows = Math.min(ROWS, height - top);
    drawBand(scene, { width: width * FINE, top: top * FINE, rows: rows * FINE }, grid);
    average(grid.colours, width, rows, pixels.subarray(4 * width * top));
  }
  return pixels;
}

/** What is known of each fine cell of a band, by its place in it; the next band is drawn over it. */
interface Grid {
  /** Red, green, blue. */
  readonly colours: Float32Array;
  readonly depth: Float32Array;
  readonly ghostDepth: Float32Array;
  readonly veils: Float32Array;
  readonly lined: Uint8Array;
}

const gridOf = (cells: number): Grid => ({
  colours: new Float32Array(3 * cells),
  depth: new Float32Array(cells),
  ghostDepth: new Float32Array(cells),
  veils: new Float32Array(cells),
  lined: new Uint8Array(cells),
});

interface Scene {
  readonly width: number;
  readonly height: number;
  readonly parts: readonly { readonly corners: FlatTriangle; readonly colour: Colour }[];
  readonly ghosts: readonly { readonly corners: FlatTriangle; readonly veil: number }[];
  readonly partLines: readonly Segment[];
  readonly ghostLines: readonly Segment[];
  readonly shadow: Float32Array | null;
  /** Radii of strokes, fine cells. */
  readonly stroke: { readonly part: number; readonly ghost: number };
}

function sceneOf(sitters: readonly Sitter[], view: View, width: number, height: number): Scene {
  const of = (style: Sitter['style']): Mesh[] => sitters.flatMap((s) => (s.style === style ? [s.mesh] : []));
  const [parts, ghosts] = [of('part'), of('ghost')];
  const { scale, middle } = frameOf(parts, ghosts, view, width, height);
  const pixel = (p: readonly [number, number, ...number[]], cells: number): [number, number] => [
    cells * (width / 2 + scale * (p[0] - middle[0])),
    cells * (height / 2 - scale * (p[1] - middle[1])),
  ];
  const place =
    (cells: number) =>
    (p: Readonly<Vec3>): Vec3 => [...pixel(p, cells), p[2]];
  const lines = (view: LineView): Segment[] => view.visible.map(([p, q]) => [pixel(p, FINE), pixel(q, FINE)]);
  // Strokes keep their share of the picture, as on a print of any size.
  const unit = (Math.min(width, height) / 600) * FINE;
  return {
    width,
    height,
    parts: facing(parts, view, place(FINE)).map(({ corners, normal }) => ({
      corners,
      colour: shade(normal),
    })),
    ghosts: facing(ghosts, view, place(FINE)).map(({ corners, normal }) => ({ corners, veil: veil(normal) })),
    partLines: parts.length > 0 ? lines(lineView(parts, view)) : [],
    ghostLines: ghosts.length > 0 ? lines(lineView(ghosts, view, parts)) : [],
    shadow: ghosts.length === 0 ? groundShadow(parts, view, place(1), width, height) : null,
    stroke: { part: Math.max(0.45 * FINE, 0.85 * unit), ghost: Math.max(0.35 * FINE, 0.5 * unit) },
  };
}

/** Triangles that look at the reader, placed. */
function facing(
  meshes: readonly Mesh[],
  view: View,
  place: (p: Readonly<Vec3>) => Vec3,
): { corners: FlatTriangle; normal: Vec3 }[] {
  return meshes.flatMap((mesh) => {
    const solid = facetedSolid(mesh, view);
    const placed = solid.points.map(place);
    return solid.triangles.flatMap(([a, b, c], t) => {
      const normal = solid.normals[t]!;
      return normal[2] > 0
        ? [{ corners: [placed[a]!, placed[b]!, placed[c]!] as const, normal: [...normal] as Vec3 }]
        : [];
    });
  });
}

function drawBand(scene: Scene, band: Band, { colours, depth, ghostDepth, veils, lined }: Grid): void {
  const cells = band.width * band.rows;
  const set = (cell: number, colour: Colour): void => {
    colours[3 * cell] = colour[0];
    colours[3 * cell + 1] = colour[1];
    colours[3 * cell + 2] = colour[2];
  };
  const tint = (cell: number, colour: Colour, share: number): void => {
    for (let k = 0; k < 3; k++) {
      const at = 3 * cell + k;
      colours[at] = colours[at]! + (colour[k]! - colours[at]!) * share;
    }
  };
  depth.fill(-Infinity, 0, cells);
  drawGround(scene, band, set);
  for (const { corners, colour } of scene.parts) {
    fillTriangle(corners, band, (cell, z) => {
      if (z <= depth[cell]!) return;
      depth[cell] = z;
      set(cell, colour);
    });
  }
  if (scene.ghosts.length > 0) {
    ghostDepth.fill(-Infinity, 0, cells);
    for (const { corners, veil } of scene.ghosts) {
      fillTriangle(corners, band, (cell, z) => {
        if (z <= ghostDepth[cell]!) return;
        ghostDepth[cell] = z;
        veils[cell] = veil;
      });
    }
    lined.fill(0, 0, cells);
    for (const [p, q] of scene.ghostLines) {
      fillStroke(p as [number, number], q as [number, number], scene.stroke.ghost, band, (cell) => {
        lined[cell] = 1;
      });
    }
    for (let cell = 0; cell < cells; cell++) {
      const inFront = ghostDepth[cell]! > depth[cell]!;
      if (!inFront && !lined[cell]) continue;
      const fade = nearRim(scene, band, cell);
      if (inFront) tint(cell, inkColour, veils[cell]! * fade);
      if (lined[cell]) tint(cell, inkColour, 0.42 * fade);
    }
  }
  for (const [p, q] of scene.partLines) {
    fillStroke(p as [number, number], q as [number, number], scene.stroke.part, band, (cell) =>
      set(cell, inkColour),
    );
  }
}

/** Paper, and the shadow on it, which is the same all over a pixel. */
function drawGround({ shadow, width }: Scene, band: Band, set: (cell: number, colour: Colour) => void): void {
  for (let row = 0; row < band.rows; row++) {
    const pixels = width * Math.floor((band.top + row) / FINE);
    for (let column = 0; column < width; column++) {
      const dark = shadow ? shadow[pixels + column]! : 0;
      const colour = dark > 0 ? mix(paper, inkColour, 0.13 * dark) : paper;
      const first = row * band.width + column * FINE;
      for (let cell = first; cell < first + FINE; cell++) set(cell, colour);
    }
  }
}

/** 0 at the rim of the picture to 1 a tenth inside: the machine goes on, the picture of it fades. */
function nearRim({ width, height }: Scene, band: Band, cell: number): number {
  const x = (cell % band.width) / FINE;
  const y = (band.top + Math.floor(cell / band.width)) / FINE;
  const t = Math.min(1, Math.min(x, y, width - x, height - y) / (0.1 * Math.min(width, height)));
  return t * t * (3 - 2 * t);
}

function average(fine: Float32Array, width: number, rows: number, pixels: Uint8Array): void {
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < width; column++) {
      const at = 4 * (row * width + column);
      for (let k = 0; k < 3; k++) {
        let sum = 0;
        for (let v = 0; v < FINE; v++)
          for (let u = 0; u < FINE; u++)
            sum += fine[3 * ((row * FINE + v) * width * FINE + column * FINE + u) + k]!;
        pixels[at + k] = Math.round(sum / (FINE * FINE));
      }
      pixels[at + 3] = 255;
    }
  }
}
