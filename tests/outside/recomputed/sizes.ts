// Every size that meets the machine, measured on the written file by rays, against what the finding on its clearance says was
// drawn; and the clearance against machine and print, which the finding states too.
import { expect } from 'vitest';
import type { ReportedInterface } from '../../../src/job/result.ts';
import { add, cross, dot, times } from '../../../src/solid/vector.ts';
import type { Judged } from './drawnJobs.ts';
import { hits, type WrittenPart } from './writtenPart.ts';

/** Where a post's outer face is looked for, mm beyond where it is said to be. */
const BEYOND = 0.2;
/** Rounds are drawn within their chord error, 0.005 mm on surfaces that meet the machine; flats are exact. */
const NEAR = 0.0051;

export const seen = { measured: 0, notThere: 0, worst: 0 };

/** Beside the middle of a feature, mm: a plug has gaps in the middle of its walls, for its arms. */
const BESIDE = [0, 2.5, -2.5, 5, -5, 7.5, -7.5, 10, -10];

/** Size of a solid or hollow about `at` along `across`: between the faces that look away from each other, or at each other. Of a
 *  solid what is met near where it is said to be. */
function measured(
  part: WrittenPart,
  { at, axis, across, kind }: ReportedInterface,
  drawn: number,
): number | null {
  if (kind === 'bore' || kind === 'slot') {
    const ends = [1, -1].map((sense) => {
      const way = times(across, sense);
      return hits(part, at, way).find(({ normal }) => dot(normal, way) < -0.5)?.distance;
    });
    return ends[0] === undefined || ends[1] === undefined ? null : ends[0] + ends[1];
  }
  const beside = cross(axis, across);
  const found = BESIDE.flatMap((by) => {
    const ends = [1, -1].map((sense) => {
      const way = times(across, sense);
      const start = drawn / 2 + BEYOND;
      // From outside in, so that slots and hollows in its middle do not count.
      const [first] = hits(part, add(add(at, times(beside, by)), times(way, start)), times(way, -1));
      return first && dot(first.normal, way) > 0.5 ? start - first.distance : Number.NaN;
    });
    const size = ends[0]! + ends[1]!;
    return Math.abs(size - drawn) < 2 * BEYOND ? [{ by: Math.abs(by), size }] : [];
  });
  // A round one is widest in its middle, which gaps may have taken away; flat faces are as far apart beside it. Other things
  // that stand as far out, such as arms in the gaps of a plug, are as far apart as they are.
  const sure = found.filter(
    ({ by, size }) =>
      by === 0 || found.some((other) => other.by !== by && Math.abs(other.size - size) < 1e-3),
  );
  if (sure.length === 0) return null;
  return sure.reduce((a, b) => (Math.abs(b.size - drawn) < Math.abs(a.size - drawn) ? b : a)).size;
}

/** Every fit is drawn as its finding says, and its clearance is machine less print. */
export function expectSizes({ written, result, scene }: Judged): void {
  for (const one of result.interfaces) {
    // What is said of every part of a set alike is said once.
    const [, member = '', own] = scene.id === '' ? [undefined, '', one.id] : /^([^.]+)\.(.+)$/.exec(one.id)!;
    const ids = [`clearance.${own}`, `${member}.clearance.${own}`];
    const found = result.findings.find(({ id }) => ids.includes(id));
    expect(found, one.id).toBeDefined();
    const {
      'drawn, mm': drawn,
      'printed, mm': printed,
      'machine, mm': machine,
    } = found!.details as Record<string, number>;
    const sense = one.kind === 'post' || one.kind === 'rib' ? -1 : 1;
    expect(found!.value!).toBeCloseTo(sense * (printed! - machine!), 9);
    if (one.kind === 'step' || (scene.id !== '' && !one.id.startsWith(`${scene.id}.`))) continue;
    const size = measured(written, one, drawn!);
    if (size === null) {
      seen.notThere++;
      continue;
    }
    seen.measured++;
    seen.worst = Math.max(seen.worst, Math.abs(size - drawn!));
    expect(Math.abs(size - drawn!), one.id).toBeLessThan(2 * NEAR);
  }
}
