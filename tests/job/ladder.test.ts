import { beforeAll, describe, expect, it } from 'vitest';
import { feltShift } from '../../src/fit/felt.ts';
import { type Ladder, ladder } from '../../src/job/ladder.ts';
import { layOnBed } from '../../src/job/make.ts';
import { plan } from '../../src/job/plan.ts';
import type { Prepared } from '../../src/job/prepare.ts';
import { Refused } from '../../src/job/problem.ts';
import { jobSchema } from '../../src/job/schema.ts';
import {
  loadKernel,
  type Manifold,
  type ManifoldToplevel,
  type Scope,
  withScope,
} from '../../src/solid/kernel.ts';
import type { Mesh } from '../../src/solid/mesh.ts';
import { after, matrix, place, shift } from '../../src/solid/placement.ts';
import { realise } from '../../src/solid/realise.ts';
import { faultsOf, soundnessOf } from '../../src/solid/soundness.ts';
import type { Vec2, Vec3 } from '../../src/solid/vector.ts';
import { footDemo } from '../parts/footJob.ts';
import { sectionAt } from '../parts/measureInterface.ts';
import { demo, type PlainJob, read, roundPost } from './demo.ts';
import { watchMemory } from './wasmMemory.ts';

let kernel: ManifoldToplevel;
let wasmBytes: () => number;
beforeAll(async () => {
  wasmBytes = watchMemory();
  kernel = await loadKernel();
});

const upright = (job: PlainJob) => {
  job.choices.lay = 'upright';
};
const closed = (job: PlainJob) => {
  job.choices.mouth = 'closed';
};
const both =
  (...changes: ((job: PlainJob) => void)[]) =>
  (job: PlainJob) => {
    for (const change of changes) change(job);
  };
/** Job, group, and how many rungs have a hole through them. */
const cases: readonly (readonly [string, (job: PlainJob) => void, string, boolean])[] = [
  ['the post, on its side', () => {}, 'socket', false],
  ['the bar through its mouth, on its side', () => {}, 'bar', false],
  ['a round post, on its side', roundPost, 'socket', false],
  ['a closed bore, on its side', closed, 'bar', true],
  ['the post, upright', upright, 'socket', false],
  ['a round post, upright', both(roundPost, upright), 'socket', false],
  ['the bar, upright', upright, 'bar', false],
  ['the mouth alone', () => {}, 'mouth', false],
];

/** The mesh of a ladder as a solid again. */
function solidOf(scope: Scope, { positions, triangles }: Mesh): Manifold {
  const mesh = new kernel.Mesh({ numProp: 3, vertProperties: positions, triVerts: triangles });
  mesh.merge();
  return scope.keep(new kernel.Manifold(mesh));
}

/** Walls on either side of the middle of an interface along the way its size is measured, read off a section of the
 *  mesh, mm from the middle; infinite where there is none. */
function wallsAt(solid: Manifold, where: { at: Vec3; axis: Vec3; across: Vec3 }): [number, number] {
  const found: number[] = [];
  for (const outline of sectionAt(solid, { id: '', ...where }) as Vec2[][])
    for (let k = 0; k < outline.length; k++) {
      const [p, q] = [outline[k]!, outline[(k + 1) % outline.length]!];
      if (p[1] > 1e-7 === q[1] > 1e-7) continue;
      found.push(p[0] + ((1e-7 - p[1]) / (q[1] - p[1])) * (q[0] - p[0]));
    }
  return [Math.max(...found.filter((x) => x < 0)), Math.min(...found.filter((x) => x > 0))];
}

const overlap = (scope: Scope, a: Manifold, b: Manifold) => scope.keep(a.intersect(b)).volume();

describe.each(cases)('a ladder of %s', (_, change, group, holed) => {
  let prepared: Prepared;
  let made: Ladder;
  beforeAll(() => {
    prepared = read(demo(change));
    made = ladder(kernel, prepared, group);
  });

  it('is one sound body on the bed, a few grams at most', () => {
    expect(faultsOf(soundnessOf(made.mesh), holed ? 7 : 0)).toEqual([]);
    // PETG, 1.27 g/cm3: material data sheets.
    expect((made.volume / 1000) * 1.27).toBeLessThan(4);
    expect(made.volume).toBeCloseTo(soundnessOf(made.mesh).volume, 1);
    for (const k of [0, 1, 2]) {
      const along = [...made.mesh.positions].filter((_, i) => i % 3 === k);
      expect(Math.min(...along)).toBeCloseTo(0, 5);
      expect(Math.max(...along)).toBeCloseTo(made.extents[k]!, 4);
    }
  });

  it('steps from tight to loose about the part as it would be made', () => {
    const normal = plan(prepared);
    const { rungs, stepped, step, record } = made;
    expect(rungs.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    for (const id of record.rungs[0] ? Object.keys(record.rungs[0].drawn) : []) {
      const whole = normal.interfaces.find((one) => one.id === id)!;
      expect(rungs[3]!.drawn[id]).toBeCloseTo(whole.drawn, 6);
      expect(rungs[3]!.clearance[id]).toBeCloseTo(whole.clearance, 6);
      for (let k = 1; k < 7; k++)
        expect(rungs[k]!.clearance[id]! - rungs[k - 1]!.clearance[id]!).toBeCloseTo(
          stepped.includes(id) ? step : 0,
          6,
        );
    }
  });

  it('has on every rung the sizes it says, read off the mesh', () => {
    withScope(kernel, (scope) => {
      const solid = solidOf(scope, made.mesh);
      let looked = 0;
      for (const { drawn, places } of made.rungs)
        for (const [id, where] of Object.entries(places)) {
          const [low, high] = wallsAt(solid, where);
          // Towards an open mouth there is no wall.
          const open = id === 'bar' && !holed;
          expect(Math.abs((open ? 2 * high : high - low) - drawn[id]!), id).toBeLessThan(2e-4);
          if (open) expect(low).toBe(-Infinity);
          looked++;
        }
      expect(looked).toBe(7 * Object.keys(made.record.aim).length);
    });
  });

  it('leaves each feature as it stands in the part: plastic, height above the bed, first layer', () => {
    withScope(kernel, (scope) => {
      const solid = solidOf(scope, made.mesh);
      made.rungs.forEach(({ places, drawn }, k) => {
        const fits = Object.fromEntries(
          made.stepped.map((id) => {
            const [lo, hi] = made.record.window[id]!;
            const by = (k - 3) * made.step;
            return [id, { lo: lo! + by, hi: hi! + by, aim: made.record.aim[id]! + by }];
          }),
        );
        const planned = plan({ ...prepared, fits: { ...prepared.fits, ...fits } });
        const { solid: part, onBed } = layOnBed(scope, prepared, planned);
        for (const [id, { at, axis, across }] of Object.entries(places)) {
          const one = planned.interfaces.find((each) => each.id === id)!;
          const home = place(onBed, one.at);
          expect(home[2]).toBeCloseTo(at[2], 6);
          const moved = scope.keep(part.translate([at[0] - home[0], at[1] - home[1], 0]));
          // The feature with half a millimetre around it.
          const half = [0, 1, 2].map(
            (n) => 0.45 + Math.abs(axis[n]! * (one.length / 2)) + Math.abs(across[n]! * (drawn[id]! / 2)),
          ) as Vec3;
          const cube = scope.keep(kernel.Manifold.cube(half.map((x) => 2 * x) as Vec3, true));
          const near = scope.keep(cube.translate(at));
          const [a, b] = [scope.keep(moved.intersect(near)), scope.keep(solid.intersect(near))];
          expect(a.volume()).toBeGreaterThan(0.1);
          const same = overlap(scope, a, b);
          expect(a.volume() - same).toBeLessThan(1e-3 * a.volume());
          expect(b.volume() - same).toBeLessThan(1e-3 * b.volume());
        }
      });
    });
  });

  it('gives the machine no more to touch than the part itself, at every rung', () => {
    expect(made.free).toBe(true);
    const ids = Object.keys(made.record.aim);
    withScope(kernel, (scope) => {
      const solid = solidOf(scope, made.mesh);
      const { solid: part, onBed } = layOnBed(scope, prepared, plan(prepared));
      const hosts = prepared.family.host(prepared.values).filter(({ meets, id }) =>
        // A keycap does not come without its rim and skirt.
        ids[0]!.startsWith('socket') ? ['socket', 'rim', 'room'].includes(id) : meets?.includes(ids[0]!),
      );
      expect(hosts.length).toBeGreaterThan(0);
      for (const { places } of made.rungs) {
        const at = places[ids[0]!]!.at;
        const home = place(onBed, plan(prepared).interfaces.find(({ id }) => id === ids[0])!.at);
        const there = after(shift([at[0] - home[0], at[1] - home[1], 0]), onBed);
        for (const { shape } of hosts) {
          const asShape = realise(scope, shape);
          const host = scope.keep(asShape.transform(matrix(there)));
          const alone = overlap(scope, part, scope.keep(asShape.transform(matrix(onBed))));
          // A tight rung shares more with the machine than the part: at most its interference all round.
          expect(overlap(scope, solid, host) - alone).toBeLessThan(3.5);
          // Away from the rung itself nothing of the strip touches.
          const own = scope.keep(
            scope.keep(kernel.Manifold.cube([7.4, 7.4, 60], true)).translate([at[0], at[1], 0]),
          );
          expect(overlap(scope, scope.keep(solid.subtract(own)), host)).toBeLessThan(1e-6);
        }
      }
    });
  });

  it('is remembered in a form a job may hold', () => {
    const ladders = { [group]: { date: '2026-11-25', ...made.record } };
    const parsed = jobSchema.safeParse({ ...demo(), ladders });
    expect(parsed.success).toBe(true);
    expect(feltShift(made.record)).toMatchObject({ shift: 0, u: made.record.doubt.u });
  });
});

describe('how a ladder climbs', () => {
  it('takes a third of the narrowest window, and not below 0.03 mm', () => {
    expect(ladder(kernel, read(demo()), 'socket').step).toBeCloseTo(0.05, 12);
    const narrow = read(
      demo((job) => {
        job.fits['socket.width'] = [0, 0.06];
      }),
    );
    expect(ladder(kernel, narrow, 'socket', { rungs: 3 }).step).toBe(0.03);
  });

  it('leaves alone what comes in whole layers beside a size that does not, and steps by layers where that is felt', () => {
    const side = ladder(kernel, read(demo()), 'socket', { rungs: 3 });
    expect(side.stepped).toEqual(['socket.width']);
    const up = ladder(kernel, read(demo(upright)), 'bar', { rungs: 3 });
    expect(up.step).toBeCloseTo(0.2, 12);
    expect(up.rungs[1]!.drawn.bar! - up.rungs[0]!.drawn.bar!).toBeCloseTo(0.2, 9);
  });

  it('takes one interface as well as a group, more rungs and another step', () => {
    const made = ladder(kernel, read(demo()), 'socket.width', { rungs: 12, step: 0.02 });
    expect(Object.keys(made.record.aim)).toEqual(['socket.width']);
    expect(made.rungs).toHaveLength(12);
    expect(
      made.rungs[11]!.clearance['socket.width']! - made.rungs[0]!.clearance['socket.width']!,
    ).toBeCloseTo(0.22, 9);
    expect(faultsOf(soundnessOf(made.mesh), 0)).toEqual([]);
  });

  it('is the same every time and leaves no wasm memory behind', () => {
    const prepared = read(demo());
    const first = ladder(kernel, prepared, 'socket', { rungs: 3 });
    const again = () => ladder(kernel, prepared, 'socket', { rungs: 3 }).mesh;
    for (let k = 0; k < 5; k++) expect(again()).toEqual(first.mesh);
    const before = wasmBytes();
    for (let k = 0; k < 20; k++) again();
    expect(wasmBytes()).toBe(before);
  });

  it('looks at the machine a few thousand times at most where no side is free (it took half a minute)', () => {
    let looks = 0;
    // Where the methods are: those of the class that makes them stand elsewhere.
    const cube = kernel.Manifold.cube(1);
    const prototype: Manifold = Object.getPrototypeOf(cube);
    cube.delete();
    const { intersect } = prototype;
    prototype.intersect = function (this: Manifold, other) {
      looks++;
      return intersect.call(this, other);
    };
    try {
      const { free } = ladder(kernel, read(footDemo()), 'stem', {});
      expect(free).toBe(false);
    } finally {
      prototype.intersect = intersect;
    }
    expect(looks).toBeGreaterThan(0);
    expect(looks).toBeLessThan(3000);
  });

  const refused = (work: () => unknown) => {
    try {
      work();
    } catch (error) {
      if (error instanceof Refused) return error.problems;
      throw error;
    }
    throw new RangeError('refused requires work that is refused');
  };
  it.each([
    ['a name nobody knows', 'sockett', {}, 'interface_unknown', /Did you mean socket\?/],
    ['too few rungs', 'socket', { rungs: 2 }, 'rungs_range', /3 to 15/],
    ['half a rung', 'socket', { rungs: 4.5 }, 'rungs_range', /whole number/],
    ['a step too fine', 'socket', { step: 0.001 }, 'step_range', /0.01 to 1 mm/],
    ['a step that is none', 'socket', { step: Number.NaN }, 'step_range', /0.01 to 1 mm/],
    ['a post of nothing', 'socket', { rungs: 15, step: 1 }, 'step_range', /step/],
  ])('refuses %s', (_, name, options, code, allowed) => {
    const [problem] = refused(() => ladder(kernel, read(demo()), name, options));
    expect(problem).toMatchObject({ code });
    expect(problem!.allowed).toMatch(allowed);
  });

  it('refuses a row longer than the bed', () => {
    const small = demo((job) => {
      job.printer = { ...job.printer, bed: { x: 60, y: 60, z: 60 } };
    });
    const [problem] = refused(() => ladder(kernel, read(small), 'socket', { rungs: 15 }));
    expect(problem).toMatchObject({ code: 'ladder_too_long', allowed: 'at most 6' });
  });
});
