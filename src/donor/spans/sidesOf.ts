import { area } from '../../solid/profile.ts';
import type { Contour, Vec2, Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';
import { type AxisFrame, axisFrame } from './axisFrame.ts';
import { sectionsWithEdges } from './section.ts';

/** One piece of a donor that is cut in two. */
export interface Piece {
  /** Corners of the box around its vertices and the cut, along x, y and z for those axes, in the frame of any other. */
  readonly from: Readonly<Vec3>;
  readonly to: Readonly<Vec3>;
  /** Up to the cut. */
  readonly volume: number;
}

/** What lies on both sides of a level, largest first. */
export interface Sides {
  readonly below: readonly Piece[];
  readonly above: readonly Piece[];
}

/** The pieces that fall apart when a donor is cut across an axis at a level, such as the middle of a span. Surfaces that
 *  only meet through the cut, as the walls of a tube do, are one piece; closed hollows are no pieces but count in no
 *  volume of another either.
 *  @example sidesOf(cubeOfSide2, [0, 0, 1], 1).below[0]?.volume // => 4 */
export function sidesOf(mesh: DonorMesh, axis: Readonly<Vec3>, level: number): Sides {
  const frame = axisFrame(mesh.positions, axis);
  return {
    below: piecesOf(mesh.triangles, frame, level, -1),
    above: piecesOf(mesh.triangles, frame, level, 1),
  };
}

function piecesOf(triangles: Uint32Array, frame: AxisFrame, level: number, side: 1 | -1): readonly Piece[] {
  const { coordinates: c, u, v, h } = frame;
  const parent = Uint32Array.from({ length: c.length / 3 }, (_, k) => k);
  const rootOf = (k: number): number => {
    let root = k;
    while (parent[root] !== root) root = parent[root] = parent[parent[root]!]!;
    return root;
  };
  // A vertex on the level is above it, as in a section.
  const here = (k: number): boolean => c[3 * k + h]! >= level === side > 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const corners = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!].filter(here);
    for (const corner of corners.slice(1)) parent[rootOf(corner)] = rootOf(corners[0]!);
  }
  const section = sectionsWithEdges(triangles, frame, [level])[0]!;
  const pieceAt = section.edges.map(([a, b]) => rootOf(here(a) ? a : b));
  const areas = section.contours.map(area);
  section.contours.forEach((hole, k) => {
    if (areas[k]! >= 0) return;
    const around = section.contours
      .map((_, o) => o)
      .filter((o) => areas[o]! > 0 && surrounds(section.contours[o]!, hole[0]!))
      .sort((a, b) => areas[a]! - areas[b]!)[0];
    if (around !== undefined) parent[rootOf(pieceAt[k]!)] = rootOf(pieceAt[around]!);
  });

  const pieces = new Map<number, { volume: number; from: Vec3; to: Vec3 }>();
  const pieceOf = (k: number) => {
    const root = rootOf(k);
    let piece = pieces.get(root);
    if (!piece) {
      piece = { volume: 0, from: [Infinity, Infinity, Infinity], to: [-Infinity, -Infinity, -Infinity] };
      pieces.set(root, piece);
    }
    return piece;
  };
  for (let t = 0; t < triangles.length; t += 3) {
    const corners = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!] as const;
    const first = corners.find(here);
    if (first === undefined) continue;
    const piece = pieceOf(first);
    for (const k of corners.filter(here))
      for (let d = 0; d < 3; d++) {
        piece.from[d] = Math.min(piece.from[d]!, c[3 * k + d]!);
        piece.to[d] = Math.max(piece.to[d]!, c[3 * k + d]!);
      }
    piece.volume += underFacet(corners);
  }
  for (const [k, contour] of section.contours.entries()) {
    const piece = pieceOf(pieceAt[k]!);
    for (const [x, y] of contour) {
      for (const [d, value] of [
        [u, x],
        [v, y],
        [h, level],
      ] as const) {
        piece.from[d] = Math.min(piece.from[d]!, value);
        piece.to[d] = Math.max(piece.to[d]!, value);
      }
    }
  }
  return [...pieces.values()].filter(({ volume }) => volume > 0).sort((a, b) => b.volume - a.volume);

  /** Signed volume between the part of a facet on this side and the level, seen along the axis. */
  function underFacet(corners: readonly [number, number, number]): number {
    const [p, q, r] = corners.map((k) => 3 * k) as [number, number, number];
    const seen =
      ((c[q + u]! - c[p + u]!) * (c[r + v]! - c[p + v]!) -
        (c[q + v]! - c[p + v]!) * (c[r + u]! - c[p + u]!)) /
      2;
    const [gp, gq, gr] = corners.map((k) => c[3 * k + h]! - level) as [number, number, number];
    const whole = (seen * (gp + gq + gr)) / 3;
    const count = corners.filter(here).length;
    if (count === 3) return whole;
    // The corner that is alone on its side spans a smaller triangle with the level.
    const alone = corners.findIndex((k) => here(k) === (count === 1));
    const gs = [gp, gq, gr];
    const [g, g1, g2] = [gs[alone]!, gs[(alone + 1) % 3]!, gs[(alone + 2) % 3]!];
    const tip = seen * (g / (g - g1)) * (g / (g - g2)) * (g / 3);
    return count === 1 ? tip : whole - tip;
  }
}

/** Whether a point lies inside a contour: a ray to the right crosses it an odd number of times. */
function surrounds(contour: Contour, [x, y]: Vec2): boolean {
  let inside = false;
  contour.forEach(([ax, ay], k) => {
    const [bx, by] = contour[(k + 1) % contour.length]!;
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
  });
  return inside;
}
