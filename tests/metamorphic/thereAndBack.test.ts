import { readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { type Donor, openDonor } from '../../src/donor/donor.ts';
import { readDonor } from '../../src/donor/read/readDonor.ts';
import { levelMap } from '../../src/donor/respace/levelMap.ts';
import type { DonorMesh } from '../../src/donor/types.ts';
import {
  type Choose,
  type RefitStep,
  refitSteps,
  unchanged,
  type WantedLength,
} from '../../src/job/refitSteps.ts';
import { stl } from '../../src/output/stl.ts';
import { loadKernel, Scope, withScope } from '../../src/solid/kernel.ts';
import type { Mesh } from '../../src/solid/mesh.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { realise } from '../../src/solid/realise.ts';
import { fromMesh } from '../../src/solid/shape.ts';
import type { Vec3 } from '../../src/solid/vector.ts';
import { bracket } from '../cli/donorModel.ts';
import { blockWithRounds, drawsOf } from '../donor/features/syntheticDonor.ts';
import { plainStl } from '../donor/files.ts';
import { donorOf } from '../donor/respace/donorOf.ts';
import { runs } from './anyJob.ts';

const kernel = await loadKernel();
const scope = new Scope(kernel);
afterAll(() => scope.close());

const donors: readonly (readonly [string, DonorMesh])[] = [
  ['bracket', donorOf(realise(scope, bracket))],
  ...['plate_holes.STL', 'round.stl'].map(
    (name) => [name, readDonor(readFileSync(`tests/donor/models/${name}`), name).mesh] as const,
  ),
  ...Array.from(
    { length: runs(1) },
    (_, k) => [`block ${k}`, blockWithRounds(scope, drawsOf(700 + k)).mesh] as const,
  ),
];

const axes: Readonly<Record<'x' | 'y' | 'z', Vec3>> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

const open = (file: Uint8Array) => openDonor(file, 'part.stl', { unit: 'mm' });

/** The whole way from file to file: a model read, its length changed, made a solid and written. */
function refitted(
  donor: Donor,
  wanted: readonly WantedLength[],
  choose: Choose,
): { mesh: Mesh; file: Uint8Array; step: RefitStep | undefined } | null {
  const { mesh: changed, steps } = refitSteps(kernel, unchanged(donor), wanted, true, choose);
  if (steps.some(({ choice }) => choice === undefined)) return null;
  const mesh = withScope(kernel, (own) => meshOf(realise(own, fromMesh(changed))));
  return { mesh, file: stl(mesh, { part: 'part', unit: 'mm', hash: '0'.repeat(64) }), step: steps[0] };
}

/** What leaves no trace, where somebody need not be asked. */
const silent: Choose = ({ exact }) => (exact ? 0 : undefined);

/** The way that takes a change out again where it was put in: the stretch of before is now longer by what it took up. Which
 *  stretch would be taken without asking is another matter, for another one may be the longest by now. */
const sameStretch =
  ({ choice }: RefitStep): Choose =>
  ({ choices }) => {
    if (choice?.kind === 'cut' || choice === undefined) return undefined;
    const moved = levelMap(choice.takeUps, choice.stays ?? undefined);
    const there = choice.takeUps.flatMap(({ from, to, by }) => [
      from + moved.shift(from),
      to + moved.shift(to),
      -by,
    ]);
    const found = choices.findIndex(
      (other) =>
        other.kind !== 'cut' &&
        other.takeUps.length === choice.takeUps.length &&
        other.takeUps
          .flatMap(({ from, to, by }) => [from, to, by])
          .every((x, k) => Math.abs(x - there[k]!) < 1e-3),
    );
    return found === -1 ? undefined : found;
  };

/** Furthest that a vertex of `a` lies from all of `b`, mm. */
function furthest(a: Mesh, b: Mesh): number {
  const CELL = 0.01;
  const keyOf = (x: number, y: number, z: number) => `${x},${y},${z}`;
  const cells = new Map<string, number[]>();
  for (let v = 0; v < b.positions.length; v += 3) {
    const key = keyOf(
      ...([0, 1, 2].map((k) => Math.round(b.positions[v + k]! / CELL)) as [number, number, number]),
    );
    const cell = cells.get(key);
    if (cell) cell.push(v);
    else cells.set(key, [v]);
  }
  let most = 0;
  for (let v = 0; v < a.positions.length; v += 3) {
    const [x, y, z] = [a.positions[v]!, a.positions[v + 1]!, a.positions[v + 2]!];
    let least = Infinity;
    for (const i of [-1, 0, 1])
      for (const j of [-1, 0, 1])
        for (const k of [-1, 0, 1])
          for (const w of cells.get(
            keyOf(Math.round(x / CELL) + i, Math.round(y / CELL) + j, Math.round(z / CELL) + k),
          ) ?? [])
            least = Math.min(
              least,
              Math.hypot(b.positions[w]! - x, b.positions[w + 1]! - y, b.positions[w + 2]! - z),
            );
    most = Math.max(most, least);
  }
  return most;
}

describe.each(donors)('%s', (_, mesh) => {
  it('longer and shorter again, or shorter and longer again, is the model it was', () => {
    const donor = open(plainStl(mesh));
    const untouched = refitted(donor, [], silent)!.mesh;
    const size = Math.max(...untouched.positions.map(Math.abs));
    let made = 0;
    for (const axis of Object.values(axes))
      for (const by of [3.4, -0.7]) {
        const there = refitted(donor, [{ axis, by }], silent);
        if (!there) continue;
        const back = refitted(open(there.file), [{ axis, by: -by }], sameStretch(there.step!));
        expect(back, `${axis} ${by}`).not.toBeNull();
        made++;
        expect(back!.mesh.triangles.length, `${axis} ${by}`).toBe(untouched.triangles.length);
        expect(back!.mesh.positions.length, `${axis} ${by}`).toBe(untouched.positions.length);
        // Two files and two sums, each rounded to half the last of 24 bits of a coordinate and of what it was moved by.
        const rounding = 4 * (size + Math.abs(by)) * 2 ** -24;
        expect(furthest(back!.mesh, untouched), `${axis} ${by}`).toBeLessThan(rounding);
        expect(furthest(untouched, back!.mesh), `${axis} ${by}`).toBeLessThan(rounding);
      }
    expect(made).toBeGreaterThan(0);
  });
});
