import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readDonor } from '../../../src/donor/read/readDonor.ts';
import { proposeRefit, refit } from '../../../src/donor/respace/proposeRefit.ts';
import { partAxes } from '../../../src/donor/spans/partAxes.ts';
import { plainSpans } from '../../../src/donor/spans/plainSpans.ts';
import { loadKernel, Scope } from '../../../src/solid/kernel.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';
import { isClosed, manifoldOf, volumeOf } from './donorOf.ts';

// Models nobody here made: see README.md beside them.
const modelOf = (name: string) => readDonor(readFileSync(`tests/donor/models/${name}`), name).mesh;

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

test('the turned part has one long plain span along z, as its list of models says', () => {
  const mesh = modelOf('round.stl');
  const spans = plainSpans(mesh, [0, 0, 1]);
  expect(spans).toHaveLength(1);
  // Its whole length, 2.4 inch.
  expect(spans[0]!.length).toBeCloseTo(60.96, 4);
  expect(volumeOf(mesh)).toBeCloseTo(spans[0]!.area * 60.96, 3);
});

describe.each(['plate_holes.STL', 'round.stl', 'featuretype.STL', 'idler_riser.STL'])('%s', (name) => {
  test('each change that needs no asking is one: volume by Manifold, holes, closed', () => {
    const mesh = modelOf(name);
    const before = manifoldOf(scope, mesh);
    let made = 0;
    for (const { axis } of partAxes(mesh))
      for (const share of [-0.05, 0.2]) {
        const [low, high] = extentAlong(mesh.positions, axis);
        const by = share * (high - low);
        const proposal = proposeRefit(mesh, { axis, by }, { rest: 1e-3 * (high - low) });
        if (!proposal.exact) continue;
        made++;
        const [best] = proposal.choices;
        if (best?.kind !== 'span' && best?.kind !== 'spans') throw new Error('not exact');
        const after = refit(mesh, axis, best);
        expect(isClosed(after)).toBe(true);
        const solid = manifoldOf(scope, after);
        expect(solid.genus()).toBe(before.genus());
        // Area at each take-up times what it takes up.
        const grown = best.takeUps.reduce((sum, { from, to, by: part }) => {
          const span = best.spans.find((one) => from >= one.from - 1e-9 && to <= one.to + 1e-9)!;
          return sum + span.area * part;
        }, 0);
        // 32-bit coordinates on Manifold's side.
        expect(Math.abs(solid.volume() - before.volume() - grown)).toBeLessThan(2e-6 * before.volume());
        const [lower, upper] = extentAlong(after.positions, axis);
        expect(upper - lower).toBeCloseTo(high - low + by, 9);
      }
    expect(made).toBeGreaterThan(0);
  });
});

function extentAlong(p: Float64Array, [x, y, z]: Readonly<Vec3>): readonly [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < p.length; i += 3) {
    const level = x * p[i]! + y * p[i + 1]! + z * p[i + 2]!;
    low = Math.min(low, level);
    high = Math.max(high, level);
  }
  return [low, high];
}
