import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { cross, dot, unit, type Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';

/** An axis worth looking along for plain spans. */
export interface PartAxis {
  readonly axis: Readonly<Vec3>;
  readonly because: 'x' | 'y' | 'z' | 'principal';
}

/** Principal axes this close to one that is listed already are the same, cosine of 0.1 degrees. */
const SAME = Math.cos((0.1 * Math.PI) / 180);

/** Moments this close together, as a share of the largest, belong to no direction of their own: any turned part. */
const EVEN = 1e-4;

/** Facets within this of parallel or square to a principal axis say where it really runs, sine of 2 degrees. */
const NEAR = Math.sin((2 * Math.PI) / 180);

/** x, y, z, and those principal axes of the part's inertia that are none of them. A principal axis runs only nearly along
 *  the walls when the part is not symmetric, so it is turned to what the facets near it agree on.
 *  Unit vectors, the largest component positive.
 *  @example partAxes(blockOf10).length // => 3 */
export function partAxes(mesh: DonorMesh): readonly PartAxis[] {
  const axes: PartAxis[] = [
    { axis: [1, 0, 0], because: 'x' },
    { axis: [0, 1, 0], because: 'y' },
    { axis: [0, 0, 1], because: 'z' },
  ];
  for (const principal of principalAxes(mesh)) {
    const axis = alongWalls(mesh, principal);
    if (axes.every((known) => Math.abs(dot(known.axis, axis)) < SAME))
      axes.push({ axis, because: 'principal' });
  }
  return axes;
}

/** Directions of the largest, middle and smallest spread of the volume, those that are one of a kind. */
export function principalAxes({ positions, triangles }: DonorMesh): readonly Vec3[] {
  const origin: Vec3 = [positions[0] ?? 0, positions[1] ?? 0, positions[2] ?? 0];
  const corner = (k: number): Vec3 => [
    positions[3 * k]! - origin[0],
    positions[3 * k + 1]! - origin[1],
    positions[3 * k + 2]! - origin[2],
  ];
  let volume = 0;
  const first = [0, 0, 0];
  const second = Matrix.zeros(3, 3);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [corner(triangles[t]!), corner(triangles[t + 1]!), corner(triangles[t + 2]!)];
    const six = dot(a, cross(b, c));
    volume += six / 6;
    const sum = [a[0] + b[0] + c[0], a[1] + b[1] + c[1], a[2] + b[2] + c[2]];
    // Moments of a tetrahedron from the origin: integral of x is V/4 of the sum, of x y V/20 of sums and products.
    for (let i = 0; i < 3; i++) {
      first[i]! += (six / 24) * sum[i]!;
      for (let j = i; j < 3; j++)
        second.set(
          i,
          j,
          second.get(i, j) +
            (six / 120) * (sum[i]! * sum[j]! + a[i]! * a[j]! + b[i]! * b[j]! + c[i]! * c[j]!),
        );
    }
  }
  if (volume === 0) return [];
  const spread = new Matrix(3, 3);
  for (let i = 0; i < 3; i++)
    for (let j = 0; j < 3; j++)
      spread.set(i, j, second.get(Math.min(i, j), Math.max(i, j)) - (first[i]! * first[j]!) / volume);
  const { realEigenvalues: values, eigenvectorMatrix: vectors } = new EigenvalueDecomposition(spread, {
    assumeSymmetric: true,
  });
  const largest = Math.max(...values.map(Math.abs));
  return [2, 1, 0].flatMap((k) => {
    const alone = values.every((value, o) => o === k || Math.abs(value - values[k]!) > EVEN * largest);
    const axis: Vec3 = [vectors.get(0, k), vectors.get(1, k), vectors.get(2, k)];
    return alone ? [positive(axis)] : [];
  });
}

/** The direction that walls near `axis` are parallel and end faces near it square to, by area in least squares; `axis`
 *  itself where none are. */
function alongWalls({ positions: p, triangles }: DonorMesh, axis: Vec3): Vec3 {
  const pull = Matrix.zeros(3, 3);
  let seen = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const normal = cross(
      [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!],
      [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!],
    );
    const size = Math.hypot(...normal);
    const cosine = Math.abs(dot(normal, axis));
    const wall = cosine <= NEAR * size;
    const end = Math.hypot(...cross(normal, axis)) <= NEAR * size;
    if (size === 0 || !(wall || end)) continue;
    seen += size;
    for (let i = 0; i < 3; i++)
      for (let j = 0; j < 3; j++)
        pull.set(i, j, pull.get(i, j) + ((wall ? 1 : -1) * normal[i]! * normal[j]!) / size);
  }
  if (seen === 0) return axis;
  const { realEigenvalues: values, eigenvectorMatrix: vectors } = new EigenvalueDecomposition(pull, {
    assumeSymmetric: true,
  });
  const least = values.indexOf(Math.min(...values));
  const turned: Vec3 = [vectors.get(0, least), vectors.get(1, least), vectors.get(2, least)];
  // Walls all one way leave a direction open; then the axis itself is as good.
  return Math.abs(dot(turned, axis)) >= Math.cos(2 * Math.asin(NEAR)) ? positive(turned) : axis;
}

function positive(axis: Vec3): Vec3 {
  const largest = axis.reduce((best, value) => (Math.abs(value) > Math.abs(best) ? value : best), 0);
  const whole = unit(axis);
  return largest < 0 ? [-whole[0], -whole[1], -whole[2]] : whole;
}
