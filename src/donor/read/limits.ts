import { DonorRefusal } from '../donorRefusal.ts';

/** What a file may ask for. Nothing is set aside by what a file says of itself before it is held to these. */
export const limits = {
  /** Triangles, objects of a 3MF as often as they are placed. A million take some 0.5 GiB in all. */
  triangles: 2_000_000,
  /** Parts in a 3MF archive. */
  parts: 10_000,
  /** Bytes of one part of a 3MF, unpacked. Two million triangles written plainly are about 250 MB. */
  partBytes: 512 * 2 ** 20,
  /** Bytes of all parts that are unpacked. */
  allBytes: 768 * 2 ** 20,
  /** Times a part may grow when unpacked, once it is larger than `smallPart`. Meshes as text grow ten- to fiftyfold;
   *  deflate itself ends at 1032. */
  growth: 250,
  smallPart: 2 ** 20,
  /** Objects placed in one 3MF. */
  placements: 20_000,
  /** Elements inside one another in XML. */
  depth: 64,
  /** Largest coordinate: beyond it products of three leave the doubles. */
  coordinate: 1e30,
} as const;

/** Throws `donor_too_large` for more triangles than are read. */
export function holdTriangles(count: number): void {
  if (count > limits.triangles)
    throw new DonorRefusal(
      'donor_too_large',
      `more than ${limits.triangles} triangles`,
      `at most ${limits.triangles} triangles; thin the mesh out first`,
    );
}
