import { beforeAll, describe, expect, it } from 'vitest';
import spacer from '../../parts/spacer/index.ts';
import { build, make } from '../../src/job/make.ts';
import { plan } from '../../src/job/plan.ts';
import type { MakeResult } from '../../src/job/result.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../src/solid/kernel.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { place, turn } from '../../src/solid/placement.ts';
import { faultsOf, soundnessOf } from '../../src/solid/soundness.ts';
import { lengthOf, subtract } from '../../src/solid/vector.ts';
import { type PlainJob, problemsIn, read } from '../job/demo.ts';
import { asFiled } from './asFiled.ts';
import { findingOf } from './findingOf.ts';
import { measuredFoot } from './measureFoot.ts';
import { spacerJob } from './spacerJob.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const made = (job: PlainJob): MakeResult => make(kernel, read(job));

/** The mesh as it goes to the file, measured, and the predicted print. */
function built(job: PlainJob) {
  const prepared = read(job);
  const planned = plan(prepared);
  return withScope(kernel, (scope) => {
    const { solid, predicted, onBed } = build(scope, prepared, planned);
    const mesh = meshOf(solid);
    const file = asFiled(kernel, scope, mesh);
    const where = planned.interfaces.map(({ id, kind, at, axis, across }) => ({
      ...{ id, kind, at: place(onBed, at), axis: turn(onBed, axis), across: turn(onBed, across) },
    }));
    const { min, max } = file.boundingBox();
    return {
      planned,
      faults: faultsOf(soundnessOf(mesh), 1),
      printFaults: faultsOf(soundnessOf(meshOf(predicted)), 1),
      drawn: measuredFoot(file, where, false),
      printed: measuredFoot(predicted, where, false),
      volume: file.volume(),
      box: [0, 1, 2].map((k) => max[k]! - min[k]!),
    };
  });
}

/** How far a measured size may lie from the one drawn, and from the one predicted, mm. A chord's error either side counts. */
const DRAWN = 0.011;
const PRINTED = 0.02;
const ROUNDING = 2e-5;

const combinations = ['round', 'hex'].flatMap((outline) =>
  ['screw', 'post'].flatMap((over) => ['PETG', 'TPU'].map((material) => ({ outline, over, material }))),
);

describe.each(combinations)('$outline, over a $over, $material', ({ material, ...choices }) => {
  const job = () => spacerJob(choices, (one) => Object.assign(one, { material }));

  it('is sound, with its sizes as drawn and as predicted', () => {
    const { planned, faults, printFaults, drawn, printed } = built(job());
    expect(faults).toEqual([]);
    expect(printFaults).toEqual([]);
    expect(planned.interfaces.map(({ id }) => id)).toEqual(['gap', 'bore']);
    for (const { id, drawn: size, predicted } of planned.interfaces) {
      const off = `${id}: ${drawn[id]} drawn ${size}, ${printed[id]} predicted ${predicted}`;
      expect(Math.abs(drawn[id]! - size), off).toBeLessThan(DRAWN);
      expect(Math.abs(printed[id]! - predicted), off).toBeLessThan(PRINTED);
      if (id === 'bore') expect(drawn[id], off).toBeGreaterThan(size - ROUNDING);
    }
  });

  it('fails nothing, prints without support, and a screw or post passes the bore', () => {
    const result = made(job());
    expect(result.findings.filter(({ verdict }) => verdict === 'fails')).toEqual([]);
    for (const id of ['overhang', 'bridge', 'sound'])
      for (const one of result.findings.filter((each) => each.id.startsWith(id)))
        expect(one.verdict, one.id).toBe('holds');
    const bore = result.interfaces.find(({ id }) => id === 'bore')!;
    expect(bore.predicted).toBeGreaterThan(bore.host);
  });
});

describe('against what is outside of the project', () => {
  // ISO 273:1979, clearance holes of the fine and the coarse series, as in tests/outside/clearanceHoles.test.ts; and outside
  // diameters of plain washers, ISO 7089:2000, from memory.
  it.each([
    [2, 2.2, 2.6, 5],
    [2.5, 2.7, 3.1, 6],
    [3, 3.2, 3.6, 7],
    [4, 4.3, 4.8, 9],
    [5, 5.3, 5.8, 10],
    [6, 6.4, 7, 12],
  ])(
    'M%d: its bore prints within ISO 273, its face is no smaller than a washer',
    (nominal, fine, coarse, washer) => {
      const text = [nominal.toFixed(3)];
      const job = spacerJob({}, ({ readings, callipers }) => {
        Object.assign(callipers!, { zero: '0' });
        Object.assign(readings, { screw: text, joint: [] });
      });
      const { printed, box } = built(job);
      expect(printed.bore).toBeGreaterThan(fine);
      expect(printed.bore).toBeLessThan(coarse);
      expect(Math.max(...box.slice(0, 2))).toBeGreaterThan(washer - 0.01);
    },
  );

  it('its volume is that of a ring, or of a hexagon with a hole: pi (D^2 - d^2) h / 4, and 2 sqrt(3) (s / 2)^2 h less the hole', () => {
    for (const outline of ['round', 'hex']) {
      const job = spacerJob({ outline }, ({ sizes }) => Object.assign(sizes, { width: '9' }));
      const { volume, drawn } = built(job);
      const hole = (Math.PI * drawn.bore! ** 2) / 4;
      const full = outline === 'hex' ? 2 * Math.sqrt(3) * 4.5 ** 2 : (Math.PI * 9 ** 2) / 4;
      const whole = (full - hole) * drawn.gap!;
      // Facets, and the first layer drawn in by what it spreads, take off a little and add nothing.
      expect(volume).toBeLessThan(whole);
      expect(volume).toBeGreaterThan(0.98 * whole);
    }
  });

  it('a hexagon is as wide across its flats as asked for, and 2 / sqrt(3) as wide across its corners', () => {
    const { box } = built(
      spacerJob({ outline: 'hex' }, ({ sizes }) => Object.assign(sizes, { width: '10' })),
    );
    expect(box[1]).toBeCloseTo(10, 4);
    expect(box[0]).toBeCloseTo(20 / Math.sqrt(3), 4);
  });
});

it('prints as high as the gap, to half a layer', () => {
  for (const gap of ['3.1', '8.04', '17.77']) {
    const { printed } = built(spacerJob({}, ({ readings }) => Object.assign(readings, { gap: [gap] })));
    // The callipers' zero of 0.01 mm comes off.
    expect(Math.abs(printed.gap! - (Number(gap) - 0.01))).toBeLessThan(0.1 + 0.015);
  }
});

it('of the demo: nothing fails, nothing to caution about but the earth', () => {
  const { findings, chance, cautions } = made(spacerJob());
  expect(findings.filter(({ verdict }) => verdict !== 'holds')).toEqual([]);
  expect(chance).toBeGreaterThan(0.9);
  expect(cautions[0]).toContain('earth');
});

describe('what it must not touch', () => {
  const withJoint = (outline: string, joint: string) =>
    made(
      spacerJob({ outline }, ({ readings, sizes }) => {
        readings.joint = [joint];
        sizes.width = '8';
      }),
    );

  it('is as far off as its edge leaves when it is pushed aside: by hand', () => {
    const result = withJoint('round', '6');
    const bore = result.interfaces.find(({ id }) => id === 'bore')!;
    expect(findingOf(result, 'joint').value).toBeCloseTo(6 - 4 - (bore.predicted - bore.host) / 2, 9);
    // The corners of a hexagon reach further: 8 / sqrt(3) is 4.62.
    expect(findingOf(result, 'joint').value! - findingOf(withJoint('hex', '6'), 'joint').value!).toBeCloseTo(
      8 / Math.sqrt(3) - 4,
      9,
    );
  });

  it('fails where a hexagon reaches it and a round one does not', () => {
    expect(findingOf(withJoint('round', '5'), 'joint').verdict).toBe('holds');
    expect(findingOf(withJoint('hex', '5'), 'joint').verdict).toBe('fails');
  });

  it('is not spoken of where nobody read it', () => {
    const { findings } = made(spacerJob({}, ({ readings }) => Object.assign(readings, { joint: [] })));
    expect(findings.map(({ id }) => id)).not.toContain('joint');
  });
});

it('a slim one is a caution from four times its width on', () => {
  const high = (gap: string) =>
    findingOf(
      made(
        spacerJob(
          {},
          ({ readings, sizes }) =>
            Object.assign(readings, { gap: [gap] }) && Object.assign(sizes, { width: '6' }),
        ),
      ),
      'slender',
    ).verdict;
  expect(high('23.9')).toBe('holds');
  expect(high('24.2')).toBe('caution');
});

it('a width that leaves no wall is refused by name', () => {
  const text = JSON.stringify(spacerJob({}, ({ sizes }) => Object.assign(sizes, { width: '4.2' })));
  const [problem, ...others] = problemsIn(text);
  expect(others).toEqual([]);
  // (4.2 - 2.93) / 2.
  expect(problem).toMatchObject({ field: 'sizes.width' });
  expect(problem!.reason).toContain('0.64 mm around the screw, at least 0.8 mm');
});

it('has its jaws as far apart as the readings say', () => {
  const { values } = read(spacerJob());
  const callouts = spacer.callouts(values);
  for (const id of ['screw', 'gap', 'joint']) {
    const [a, b] = callouts[id]!;
    expect(lengthOf(subtract(b, a)), id).toBeCloseTo(values[id as 'screw'] as number, 9);
  }
});
