// Refit of a million-triangle donor against reading, joining and writing it alone, and re-spacing against the saw:
// `npx tsx tests/bench/donorRefit.ts`, and part of `npm run bench`.
import { readDonor } from '../../src/donor/read/readDonor.ts';
import { cutAndRejoin } from '../../src/donor/respace/cutAndRejoin.ts';
import { proposeRefit, refit } from '../../src/donor/respace/proposeRefit.ts';
import { respace } from '../../src/donor/respace/respace.ts';
import { plainSpans } from '../../src/donor/spans/plainSpans.ts';
import type { DonorMesh } from '../../src/donor/types.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../src/solid/kernel.ts';
import type { Vec3 } from '../../src/solid/vector.ts';
import { type Ratio, sideBySide } from './ratio.ts';

const Z: Vec3 = [0, 0, 1];
const BY = -3.4;

/** Two knobbed heads on a plain round bar: `around` points a ring and `rings` of them, 2 `around` `rings` triangles. */
export function knobbedBar(around: number, rings: number): DonorMesh {
  const positions = new Float64Array(3 * (around * rings + 2));
  const triangles = new Uint32Array(6 * around * rings);
  const high = 60;
  for (let r = 0; r < rings; r++) {
    const share = r / (rings - 1);
    // Single precision, as a file holds it.
    const z = Math.fround(high * share);
    const knob = Math.max(0, 15 - Math.min(z, high - z)) / 15;
    for (let k = 0; k < around; k++) {
      const angle = (2 * Math.PI * k) / around;
      const radius = 8 + 3 * knob * (1.2 + Math.sin(9 * angle) * Math.cos(40 * (share - 0.5)));
      const [x, y] = [radius * Math.cos(angle), radius * Math.sin(angle)];
      positions.set([Math.fround(x), Math.fround(y), z], 3 * (r * around + k));
    }
  }
  const [bottom, top] = [around * rings, around * rings + 1];
  positions.set([0, 0, 0, 0, 0, high], 3 * bottom);
  let at = 0;
  for (let k = 0; k < around; k++) {
    const next = (k + 1) % around;
    triangles.set([bottom, next, k], at);
    const last = (rings - 1) * around;
    triangles.set([top, last + k, last + next], at + 3);
    at += 6;
    for (let r = 0; r + 1 < rings; r++) {
      const [a, b, c, d] = [r * around + k, r * around + next, (r + 1) * around + next, (r + 1) * around + k];
      triangles.set([a, b, c, a, c, d], at);
      at += 6;
    }
  }
  return { positions, triangles };
}

/** Binary STL by hand, with normals left 0 as many programs do: the least that writing can cost. */
function written({ positions: p, triangles }: DonorMesh): Uint8Array {
  const count = triangles.length / 3;
  const bytes = new Uint8Array(84 + 50 * count);
  const view = new DataView(bytes.buffer);
  view.setUint32(80, count, true);
  for (let t = 0; t < count; t++)
    for (let k = 0; k < 3; k++) {
      const v = 3 * triangles[3 * t + k]!;
      for (let d = 0; d < 3; d++) view.setFloat32(84 + 50 * t + 12 + 12 * k + 4 * d, p[v + d]!, true);
    }
  return bytes;
}

const read = (file: Uint8Array): DonorMesh => readDonor(file, 'bar.stl').mesh;

/** Every vertex below the span where it was, every vertex above it moved by one and the same number. */
function movedAsOne(before: DonorMesh, after: DonorMesh, from: number, to: number): boolean {
  for (let i = 2; i < before.positions.length; i += 3) {
    const z = before.positions[i]!;
    const want = z <= from ? z : z >= to ? z + BY : undefined;
    if (want !== undefined && after.positions[i] !== want) return false;
    if (
      after.positions[i - 1] !== before.positions[i - 1] ||
      after.positions[i - 2] !== before.positions[i - 2]
    )
      return false;
  }
  return true;
}

/** Both bars of re-spacing. `triangles` of the large donor, and of the one that the saw can bear. */
export function donorRefitRatios(kernel: ManifoldToplevel, large = 1_000_000, small = 100_000): Ratio[] {
  const barOf = (triangles: number): DonorMesh =>
    read(written(knobbedBar(Math.round(Math.sqrt(triangles)), Math.round(Math.sqrt(triangles) / 2))));
  const file = written(barOf(large));
  const alone = (): void => void written(read(file));
  let symmetric = false;
  const whole = (): void => {
    const donor = read(file);
    const { exact, choices, mirror } = proposeRefit(donor, { axis: Z, by: BY });
    if (!exact) throw new Error('the bar has a plain span');
    symmetric = mirror !== null;
    written(refit(donor, Z, choices[0]!));
  };
  const first = sideBySide(whole, alone, { rounds: 5 });

  const bar = barOf(small);
  const span = plainSpans(bar, Z)[0]!;
  const takeUps = [{ from: span.from, to: span.to, by: BY }];
  const at = (span.from + span.to) / 2 + BY / 2;
  const spaced = (): DonorMesh => respace(bar, Z, takeUps);
  const sawn = (): void => withScope(kernel, (scope) => void cutAndRejoin(scope, bar, Z, { at, by: BY }));
  const second = sideBySide(sawn, () => void spaced(), { rounds: 5 });
  if (!movedAsOne(bar, spaced(), span.from, span.to)) throw new Error('a vertex moved relative to its side');
  const ms = (value: number): string => `${value.toFixed(0)} ms`;
  return [
    {
      name: `refit of ${(file.length - 84) / 50} triangles / reading, joining and writing alone`,
      ratio: first.ratio,
      goal: { side: 'at most', value: 1.5 },
      detail: `${ms(first.a)} / ${ms(first.b)}, mirror plane ${symmetric ? 'kept' : 'none'}`,
    },
    {
      name: `cut, moved and joined by booleans / re-spaced, ${bar.triangles.length / 3} triangles`,
      ratio: second.ratio,
      goal: { side: 'at least', value: 1 },
      detail: `${ms(second.a)} / ${second.b.toFixed(1)} ms, every vertex beside the span moved by the same bits`,
    },
  ];
}

if (import.meta.url === `file://${process.argv[1]}`) {
  for (const { name, ratio, goal, detail } of donorRefitRatios(await loadKernel()))
    console.log(`${name}: ${ratio.toFixed(2)} (goal ${goal.side} ${goal.value}), ${detail}`);
}
