import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import { make } from '../../src/job/make.ts';
import type { Prepared } from '../../src/job/prepare.ts';
import { readJob } from '../../src/job/readJob.ts';
import type { MakeResult } from '../../src/job/result.ts';
import { sceneOf } from '../../src/job/scene.ts';
import { type PartInTheRound, solidView } from '../../src/job/solidView.ts';
import {
  loadKernel,
  type Manifold,
  type ManifoldToplevel,
  type Scope,
  withScope,
} from '../../src/solid/kernel.ts';
import type { Mesh } from '../../src/solid/mesh.ts';
import { matrix } from '../../src/solid/placement.ts';
import { realise } from '../../src/solid/realise.ts';
import { fromMesh } from '../../src/solid/shape.ts';

const demos = ['stabiliser-clip', 'case-foot', 'socket-cover'] as const;

let kernel: ManifoldToplevel;
const prepared = new Map<string, Prepared>();
const views = new Map<string, PartInTheRound>();
const results = new Map<string, MakeResult>();
beforeAll(async () => {
  kernel = await loadKernel();
  for (const id of demos) {
    const job = readJob(readFileSync(`parts/${id}/demo.job.json`, 'utf8'), families);
    prepared.set(id, job);
    views.set(id, solidView(kernel, job)[0]!);
    results.set(id, make(kernel, job));
  }
});

const view = (id: string): PartInTheRound => views.get(id)!;
const solidOf = (scope: Scope, mesh: Mesh): Manifold =>
  realise(scope, fromMesh({ positions: Float64Array.from(mesh.positions), triangles: mesh.triangles }));
const hostsOf = (id: string) => prepared.get(id)!.family.host(prepared.get(id)!.values);

/** Twice the area of loose triangles. */
function areaOf(corners: ArrayLike<number>): number {
  let sum = 0;
  for (let t = 0; t < corners.length; t += 9) {
    const [u, v] = [3, 6].map((k) => [0, 1, 2].map((c) => corners[t + k + c]! - corners[t + c]!)) as [
      number[],
      number[],
    ];
    sum += Math.hypot(
      u[1]! * v[2]! - u[2]! * v[1]!,
      u[2]! * v[0]! - u[0]! * v[2]!,
      u[0]! * v[1]! - u[1]! * v[0]!,
    );
  }
  return sum / 2;
}

describe.each(demos)('solidView of the %s', (id) => {
  it('cuts the surface of the print finer without changing it', () => {
    withScope(kernel, (scope) => {
      const { print, fit } = view(id);
      const area = solidOf(scope, print).surfaceArea();
      expect(Math.abs(areaOf(fit.positions) - area)).toBeLessThan(1e-5 * area);
      expect(fit.positions.length / 9).toBeGreaterThan(print.triangles.length / 3);
    });
  });

  it('comes as near to each host as another library measures', () => {
    let compared = 0;
    withScope(kernel, (scope) => {
      const { print, fit } = view(id);
      const solid = solidOf(scope, print);
      const gaps = fit.poses[0]!;
      for (const host of hostsOf(id)) {
        const numbers = fit.wanted.flatMap(({ name }, k) =>
          host.meets?.some((one) => interfaceName(id, one) === name) ? [k] : [],
        );
        const placement = prepared.get(id)!.family.motion(prepared.get(id)!.values)[0]?.placements[host.id];
        const there = realise(scope, host.shape);
        const other = placement ? scope.keep(there.transform(matrix(placement))) : there;
        const theirs = solid.minGap(other, 1);
        const ours = [...gaps.gap].filter((_, k) => numbers.includes(gaps.against[k]!));
        // Where they touch or overlap there is no distance to be compared.
        if (theirs === 0 || theirs >= 0.8 || ours.length === 0) continue;
        compared++;
        const least = Math.min(...ours);
        expect(least).toBeGreaterThan(theirs - 1e-3);
        expect(least).toBeLessThan(theirs + 0.02);
      }
    });
    if (id === 'stabiliser-clip') expect(compared).toBeGreaterThanOrEqual(2);
  });

  it('counts the layers of the result and ends at the top of the print', () => {
    const { print, layers } = view(id);
    expect(layers).toHaveLength(results.get(id)!.print.layers);
    const [scene] = sceneOf(kernel, prepared.get(id)!);
    const { rotation } = scene!.onBed;
    const heights = [];
    for (let i = 0; i < print.positions.length; i += 3)
      heights.push(
        rotation[6] * print.positions[i]! +
          rotation[7] * print.positions[i + 1]! +
          rotation[8] * print.positions[i + 2]!,
      );
    const tall = Math.max(...heights) - Math.min(...heights);
    expect(layers.at(-1)!.top).toBeCloseTo(tall, 3);
  });

  it('puts it in from outside, and leaves everything in its place', () => {
    const routes = view(id).plays.filter(({ kind }) => kind === 'route');
    expect(routes.length).toBeGreaterThan(0);
    withScope(kernel, (scope) => {
      const solid = solidOf(scope, view(id).print);
      for (const { frames } of routes) {
        for (const host of hostsOf(id)) {
          const [first, last] = [frames[0]!.placements[host.id], frames.at(-1)!.placements[host.id]];
          if (first === null) continue;
          expect(last).toEqual({ rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], translation: [0, 0, 0] });
          const away = scope.keep(realise(scope, host.shape).transform(matrix(first!)));
          expect(scope.keep(solid.intersect(away)).volume()).toBeLessThan(1e-6);
        }
      }
    });
  });
});

function interfaceName(id: string, of: string): string | undefined {
  const { family, values } = prepared.get(id)!;
  return family.interfaces(values, {}).find((one) => one.id === of)?.name;
}

describe('solidView of the clip', () => {
  it('has the gap in the socket that the formula expects', () => {
    // The plan's formula and the layers of the predicted print are two routes to the same size.
    const { fit } = view('stabiliser-clip');
    const { interfaces } = results.get('stabiliser-clip')!;
    const socket = interfaces.find(({ id }) => id === 'socket.width')!;
    const number = fit.wanted.findIndex(({ name }) => name === socket.name);
    const gaps = fit.poses[0]!;
    const here = [...gaps.gap].filter((_, k) => gaps.against[k] === number).sort((a, b) => a - b);
    expect(here.length).toBeGreaterThan(100);
    const middle = here[here.length >> 1]!;
    expect(Math.abs(2 * middle - socket.clearance)).toBeLessThan(0.01);
    expect(fit.wanted[number]).toMatchObject({
      least: socket.window[0] / 2,
      most: socket.window[1] / 2,
    });
  });

  it('moves with the machine: the poses of the family, and gaps in each', () => {
    const { family, values } = prepared.get('stabiliser-clip')!;
    const { plays, fit } = view('stabiliser-clip');
    const motion = plays.find(({ id }) => id === 'motion')!;
    expect(motion.frames.map(({ placements }) => placements)).toEqual(
      family.motion(values).map(({ placements }) => placements),
    );
    expect(fit.poses).toHaveLength(motion.frames.length);
    const of = (pose: number, name: string): number[] => {
      const { gap, against } = fit.poses[pose]!;
      return [...gap].filter((_, k) => fit.wanted[against[k]!]?.name === name);
    };
    // The bar slides in its slot while the post stays in its socket.
    expect(of(8, 'run of the bar')).not.toEqual(of(0, 'run of the bar'));
    expect(of(8, 'post in socket, width')).toEqual(of(0, 'post in socket, width'));
  });

  it('says what is pushed home where, step by step', () => {
    const { plays } = view('stabiliser-clip');
    const order = plays.find(({ id }) => id === 'keycap-first')!;
    const steps = [...new Set(order.frames.map(({ step }) => step))];
    expect(steps).toEqual([1, 2]);
    const middle = order.frames.filter(({ step }) => step === 1).at(-1)!;
    expect(middle.placements.socket?.translation).toEqual([0, 0, 0]);
    // The bar waits below the mouth until its turn comes.
    expect(middle.placements.bar!.translation[2]).toBeLessThan(-3);
    expect(middle.placements.plate).toBeNull();
  });
});
