// Expected gaps and depths are closed forms of plain geometry, worked out beside each case.
import { afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import type { Finding } from '../../src/check/finding.ts';
import { motionClearance } from '../../src/check/motionClearance.ts';
import { overlapDepth } from '../../src/check/overlapDepth.ts';
import type { HostPart } from '../../src/family/machine.ts';
import { loadKernel, type Manifold, type ManifoldToplevel, Scope } from '../../src/solid/kernel.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { shift, up } from '../../src/solid/placement.ts';
import { block, cylinder } from '../../src/solid/primitives.ts';
import { realise } from '../../src/solid/realise.ts';
import { difference, moved, type Shape, union } from '../../src/solid/shape.ts';
import { printer } from '../printer/profile.ts';
import { fittedContext, planned } from './fittedContext.ts';

let kernel: ManifoldToplevel;
let scope: Scope;
beforeAll(async () => {
  kernel = await loadKernel();
  scope = new Scope(kernel);
});
afterEach(() => scope.close());

const host = (shape: Shape, told: Partial<HostPart> = {}): HostPart => ({
  ...{ id: 'socket', name: 'socket', keepOff: 0, shape },
  ...told,
});

/** Twice the chord error of an interface: one facet on either side of the gap. */
const FACETS = 0.01;

const shaft = (diameter: number, x = 0): Shape =>
  cylinder({ axis: 'z', diameter, from: [x, 0, 0], length: 4, sense: 'shaft' });
const bored = (diameter: number): Shape =>
  difference(
    block([-6, -6, 0], [6, 6, 4]),
    cylinder({ axis: 'z', diameter, from: [0, 0, -1], length: 6, sense: 'bore' }),
  );

function byId(findings: readonly Finding[], id: string): Finding {
  const found = findings.find((finding) => finding.id === id);
  if (found === undefined) throw new RangeError(`no finding ${id} among ${findings.map((f) => f.id).join()}`);
  return found;
}

describe('motionClearance', () => {
  it('finds half the diametral clearance around a shaft in its bore', () => {
    const findings = motionClearance(fittedContext(scope, shaft(4), { hosts: [host(bored(4.4))] }));
    expect(findings.map(({ id }) => id)).toEqual(['gap.socket.drawn', 'gap.socket.predicted']);
    for (const { value, verdict, margin } of findings) {
      expect(Math.abs(value! - 0.2)).toBeLessThan(FACETS);
      expect(verdict).toBe('holds');
      expect(margin).toBe(value);
    }
  });

  it('finds what is left on the near side of a shaft off its middle', () => {
    const findings = motionClearance(fittedContext(scope, shaft(4, 0.15), { hosts: [host(bored(4.4))] }));
    expect(Math.abs(byId(findings, 'gap.socket.drawn').value! - 0.05)).toBeLessThan(FACETS);
  });

  it('finds how deep a shaft off its middle cuts into the bore, and where', () => {
    const part = union(shaft(4, 0.35), block([-1, -1, -1], [1, 1, 0]));
    const context = fittedContext(scope, part, { hosts: [host(bored(4.4))], turn: up.x });
    const drawn = byId(motionClearance(context), 'gap.socket.drawn');
    // A crescent, thickest on the x axis: 0.35 - (4.4 - 4) / 2.
    expect(Math.abs(drawn.value! + 0.15)).toBeLessThan(0.02);
    expect(drawn).toMatchObject({ verdict: 'fails', limit: 0, unit: 'mm' });
    // Area of the circle of radius 2 outside that of radius 2.2, centres 0.35 apart (lens formula), times the height.
    const [r, R, d] = [2, 2.2, 0.35];
    const lens =
      r * r * Math.acos((d * d + r * r - R * R) / (2 * d * r)) +
      R * R * Math.acos((d * d + R * R - r * r) / (2 * d * R)) -
      0.5 * Math.sqrt((-d + r + R) * (d + r - R) * (d - r + R) * (d + r + R));
    const crescent = (Math.PI * r * r - lens) * 4;
    expect(Math.abs(Number(drawn.details!['overlap, mm3']) / crescent - 1)).toBeLessThan(0.12);
    // x points up on the bed; the part starts 1.65 mm below the origin of its own frame.
    const top = 0.35 + 2 + 1.65;
    expect(drawn.at![2]).toBeGreaterThan(top - 0.6);
    expect(drawn.at![2]).toBeLessThan(top + 0.3);
    expect(drawn.because).toMatch(/overlaps socket by 0\.1\d mm/);
    expect(drawn.remedy).not.toBe('');
  });

  it('allows a press fit what its window allows, and no more', () => {
    const press = (diameter: number) => {
      const interfaces = [planned({ host: 4, drawn: 4, predicted: diameter, window: { lo: -0.15, hi: 0 } })];
      const hosts = [host(bored(4), { meets: ['socket'] })];
      return byId(
        motionClearance(fittedContext(scope, shaft(diameter), { hosts, interfaces })),
        'gap.socket.predicted',
      );
    };
    const held = press(4.1);
    expect(Math.abs(held.value! + 0.05)).toBeLessThan(FACETS);
    expect(held).toMatchObject({ verdict: 'holds', limit: -0.075, remedy: '' });
    const tight = press(4.24);
    expect(Math.abs(tight.value! + 0.12)).toBeLessThan(FACETS);
    expect(tight.verdict).toBe('fails');
    expect(tight.remedy).toMatch(/looser fit of post in socket/);
  });

  it('does not blame the drawing for what printing takes back', () => {
    // A printer that prints 0.1 mm under a side: the drawn post is too thick for its socket, the printed one is not.
    const profile = printer({ outerGrowth: -0.1 });
    const interfaces = [planned({ host: 4, drawn: 4.15, predicted: 3.95 })];
    const hosts = [
      host(difference(block([-5, -5, 0], [5, 5, 4]), block([-2, -2, -1], [2, 2, 5])), { meets: ['socket'] }),
    ];
    const part = block([-2.075, -2.075, 0], [2.075, 2.075, 4]);
    const findings = motionClearance(fittedContext(scope, part, { hosts, interfaces, printer: profile }));
    expect(byId(findings, 'gap.socket.drawn')).toMatchObject({ verdict: 'holds' });
    expect(byId(findings, 'gap.socket.drawn').value).toBeCloseTo(-0.075, 4);
    expect(byId(findings, 'gap.socket.predicted').value).toBeCloseTo(0.025, 4);
  });

  it('takes the worst of the motion and names it', () => {
    const key = host(block([3, -2, -2], [5, 2, 2]), { id: 'key', name: 'key', keepOff: 0.3 });
    const poses = [0, -0.6, -0.8, -0.2].map((x) => ({
      name: `key ${-x} mm in`,
      placements: { key: shift([x, 0, 0]) },
    }));
    const part = block([-2, -2, -2], [2, 2, 2]);
    const near = byId(motionClearance(fittedContext(scope, part, { hosts: [key], poses })), 'gap.key.drawn');
    expect(near.value).toBeCloseTo(0.2, 6);
    expect(near).toMatchObject({ verdict: 'caution', limit: 0.3, details: { pose: 'key 0.8 mm in' } });
    expect(near.margin).toBeCloseTo(-0.1, 6);
    const further = [...poses, { name: 'key all the way in', placements: { key: shift([-1.4, 0, 0]) } }];
    const clash = byId(
      motionClearance(fittedContext(scope, part, { hosts: [key], poses: further })),
      'gap.key.drawn',
    );
    // A slab 0.4 x 4 x 4.
    expect(clash.value).toBeCloseTo(-0.4, 6);
    expect(clash.details).toMatchObject({ pose: 'key all the way in' });
    expect(clash.details!['overlap, mm3']).toBeCloseTo(6.4, 6);
  });

  it('fails contact where a gap is wanted and lets parts touch where none is', () => {
    const part = block([-2, -2, -2], [2, 2, 2]);
    const beside = block([2, -2, -2], [4, 2, 2]);
    const verdict = (keepOff: number) =>
      byId(
        motionClearance(fittedContext(scope, part, { hosts: [host(beside, { keepOff })] })),
        'gap.socket.drawn',
      ).verdict;
    expect(verdict(0.2)).toBe('fails');
    expect(verdict(0)).toBe('holds');
  });

  it('finds a part wholly inside a host', () => {
    const hosts = [host(block([-9, -9, -9], [9, 9, 9]))];
    const inside = byId(
      motionClearance(fittedContext(scope, block([-1, -2, -2], [1, 2, 2]), { hosts })),
      'gap.socket.drawn',
    );
    expect(inside.value).toBeCloseTo(-2, 6);
    expect(inside.verdict).toBe('fails');
  });

  describe('with a seat', () => {
    /** Body with a post on top that goes into a socket; the body's shoulder rests on the underside at z = 0. */
    const part = union(block([-4, -4, -5], [8, 4, 0]), block([-2, -2, -1], [2, 2, 3]));
    const underside = (hole: number): Shape =>
      difference(block([-9, -9, 0], [9, 9, 4]), block([-hole / 2, -hole / 2, -1], [hole / 2, hole / 2, 3.5]));
    const interfaces = [
      planned({ id: 'socket.width', at: [0, 0, 1.5], across: [1, 0, 0], window: { lo: -0.3, hi: 0 } }),
      planned({ id: 'socket.length', at: [0, 0, 1.5], across: [0, 1, 0], window: { lo: -0.3, hi: 0 } }),
    ];
    const meets = ['socket.width', 'socket.length'];
    const seat = [0, 0, 1] as const;

    it('calls contact with it no clash', () => {
      const hosts = [host(underside(4.4), { seat: [...seat], meets })];
      const drawn = byId(
        motionClearance(fittedContext(scope, part, { hosts, interfaces })),
        'gap.socket.drawn',
      );
      expect(drawn).toMatchObject({ value: 0, verdict: 'holds', because: 'rests against socket' });
    });

    it('sets a proud print back against it, press fit and all, before anything else is judged', () => {
      // On its side the shoulder is an outer face: it stands 0.1 mm proud. The post grows by as much and presses.
      const hosts = [
        host(underside(4.1), { seat: [...seat], meets }),
        host(block([-9, -9, -7], [9, 9, -5.8]), { id: 'plate', name: 'plate', keepOff: 0.2 }),
      ];
      const profile = printer({ outerGrowth: 0.1 });
      const context = fittedContext(scope, part, { hosts, interfaces, printer: profile, turn: up.y });
      const findings = motionClearance(context);
      const socket = byId(findings, 'gap.socket.predicted');
      expect(Number(socket.details!['seated by, mm'])).toBeCloseTo(0.1, 3);
      // (4 + 0.2 - 4.1) / 2 along the bed's axes; heights come as drawn.
      expect(socket.value).toBeCloseTo(-0.05, 3);
      expect(socket).toMatchObject({ verdict: 'holds', limit: -0.15 });
      // The body's lower face went down by its growth and by the seating.
      expect(byId(findings, 'gap.plate.drawn').value).toBeGreaterThanOrEqual(0.7);
      expect(byId(findings, 'gap.plate.predicted').value).toBeCloseTo(0.6, 3);
    });

    it('keeps the post in the middle of its socket when the plastic shrinks', () => {
      // The middle of the part's box lies 2 mm beside the post; 2 % of that would push the post 0.04 mm off.
      const hosts = [host(underside(4.06), { seat: [...seat], meets })];
      const profile = printer({ scale: [0.98, 0.98, 1] });
      const context = fittedContext(scope, part, { hosts, interfaces, printer: profile });
      const socket = byId(motionClearance(context), 'gap.socket.predicted');
      expect(socket).toMatchObject({ value: 0, verdict: 'holds' });
      expect(Number(socket.details!['seated by, mm'])).toBeCloseTo(0.04, 3);
    });
  });

  it('asks for no gap where boxes are far apart, and for one where a host stands still', () => {
    const solids = Object.getPrototypeOf(scope.keep(kernel.Manifold.cube(1))) as Manifold;
    const minGap = vi.spyOn(solids, 'minGap');
    const intersect = vi.spyOn(solids, 'intersect');
    const far = host(block([20, 0, 0], [22, 2, 2]), { id: 'far', name: 'far wall' });
    const near = host(block([2.2, -2, -2], [4, 2, 2]));
    const poses = [0, 1, 2].map((k) => ({ name: `step ${k}`, placements: { far: shift([k, 0, 0]) } }));
    const findings = motionClearance(
      fittedContext(scope, block([-2, -2, -2], [2, 2, 2]), { hosts: [far, near], poses }),
    );
    expect(minGap).toHaveBeenCalledTimes(2);
    expect(intersect).not.toHaveBeenCalled();
    vi.restoreAllMocks();
    expect(byId(findings, 'gap.far.drawn').because).toMatch(/at least 0\.50 mm/);
    expect(byId(findings, 'gap.socket.drawn').value).toBeCloseTo(0.2, 6);
  });
});

describe('overlapDepth', () => {
  const depthOf = (shape: Shape): number => {
    const solid: Manifold = realise(scope, shape);
    const { min, max } = solid.boundingBox();
    return overlapDepth(meshOf(solid), Math.min(max[0] - min[0], max[1] - min[1], max[2] - min[2]));
  };

  it('is the thickness of a slab, the side of a cube, the wall of a shell', () => {
    expect(depthOf(block([0, 0, 0], [5, 4, 0.05]))).toBeCloseTo(0.05, 6);
    // Its one ball touches at the very edge between two triangles, where points are taken a thousandth inside.
    expect(Math.abs(depthOf(block([0, 0, 0], [2, 2, 2])) / 2 - 1)).toBeLessThan(1e-3);
    const shell = difference(
      cylinder({ axis: 'z', diameter: 4.2, from: [0, 0, 0], length: 3, sense: 'shaft' }),
      cylinder({ axis: 'z', diameter: 4, from: [0, 0, -1], length: 5, sense: 'bore' }),
    );
    expect(Math.abs(depthOf(shell) - 0.1)).toBeLessThan(FACETS);
  });

  it('finds a turned slab, where the box says nothing', () => {
    const [c, s] = [Math.cos(0.6), Math.sin(0.6)];
    const slab: Shape = {
      kind: 'placed',
      of: moved(block([0, 0, 0], [5, 4, 0.08]), [1, 2, 3]),
      placement: { rotation: [c, 0, s, 0, 1, 0, -s, 0, c], translation: [0, 0, 0] },
    };
    expect(depthOf(slab)).toBeCloseTo(0.08, 4);
  });
});
