import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import type { ReadTriangle } from './meshes.ts';

/** Triangles of an STL file as three.js reads them; it finds out by itself whether the file is text. */
export function readStl(file: Uint8Array<ArrayBuffer>): readonly ReadTriangle[] {
  const geometry = new STLLoader().parse(Uint8Array.from(file).buffer);
  const positions = geometry.getAttribute('position');
  const normals = geometry.getAttribute('normal');
  const point = (of: typeof positions, k: number) => [of.getX(k), of.getY(k), of.getZ(k)] as const;
  return Array.from({ length: positions.count / 3 }, (_, t) => ({
    normal: point(normals, 3 * t),
    corners: [point(positions, 3 * t), point(positions, 3 * t + 1), point(positions, 3 * t + 2)],
  }));
}
