import { beforeAll, describe, expect, it } from 'vitest';
import caseFoot from '../../parts/case-foot/index.ts';
import { askedReadings } from '../../src/family/family.ts';
import { build, make } from '../../src/job/make.ts';
import { membersOf } from '../../src/job/members.ts';
import { plan } from '../../src/job/plan.ts';
import type { Prepared } from '../../src/job/prepare.ts';
import type { MakeResult } from '../../src/job/result.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../src/solid/kernel.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { place, turn } from '../../src/solid/placement.ts';
import { faultsOf, soundnessOf } from '../../src/solid/soundness.ts';
import { lengthOf, subtract } from '../../src/solid/vector.ts';
import { type PlainJob, problemsIn, read } from '../job/demo.ts';
import { asFiled } from './asFiled.ts';
import { findingOf } from './findingOf.ts';
import { footDemo, footJob, footKinds, footShapes } from './footJob.ts';
import { measuredFoot } from './measureFoot.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const made = (job: PlainJob): MakeResult => make(kernel, read(job));

/** Builds each part of a job, and measures the mesh as it goes to the file, and the predicted print. */
function built(prepared: Prepared) {
  const sloping = prepared.values.choices.kind === 'riser';
  return membersOf(prepared).map(({ prepared: one }) => {
    const planned = plan(one);
    return withScope(kernel, (scope) => {
      const { solid, predicted, onBed } = build(scope, one, planned);
      const mesh = meshOf(solid);
      const file = asFiled(kernel, scope, mesh);
      const where = planned.interfaces.map(({ id, kind, at, axis, across }) => ({
        ...{ id, kind, at: place(onBed, at), axis: turn(onBed, axis), across: turn(onBed, across) },
      }));
      const genus = one.family.genus(one.values);
      return {
        planned,
        faults: faultsOf(soundnessOf(mesh), genus),
        printFaults: faultsOf(soundnessOf(meshOf(predicted)), genus),
        drawn: measuredFoot(file, where, sloping),
        printed: measuredFoot(predicted, where, sloping),
      };
    });
  });
}

/** How far a measured size may lie from the one drawn, and from the one predicted, mm. A chord's error either side
 *  counts to the first. */
const DRAWN = 0.011;
const PRINTED = 0.02;
/** Coordinates of the file are 32-bit. */
const ROUNDING = 2e-5;

const combinations = [
  ...footKinds.flatMap((kind) =>
    footShapes.map((shape) => ({ kind, shape, feet: 'alike', material: 'TPU' })),
  ),
  ...footKinds.map((kind) => ({ kind, shape: 'round', feet: 'each', material: 'PETG' })),
];

describe.each(combinations)('$kind, $shape, $feet, $material', ({ material, ...choices }) => {
  it('is sound, with its sizes as drawn and as predicted', () => {
    const parts = built(read(footJob(choices, (job) => Object.assign(job, { material }))));
    expect(parts).toHaveLength(choices.feet === 'each' && choices.kind !== 'riser' ? 4 : 1);
    for (const { planned, faults, printFaults, drawn, printed } of parts) {
      expect(faults).toEqual([]);
      expect(printFaults).toEqual([]);
      for (const { id, kind, drawn: size, predicted } of planned.interfaces) {
        const off = `${id}: ${drawn[id]} drawn ${size}, ${printed[id]} predicted ${predicted}`;
        expect(Math.abs(drawn[id]! - size), off).toBeLessThan(DRAWN);
        expect(Math.abs(printed[id]! - predicted), off).toBeLessThan(PRINTED);
        if (kind === 'bore') expect(drawn[id], off).toBeGreaterThan(size - ROUNDING);
        if (kind === 'post') expect(drawn[id], off).toBeLessThan(size + ROUNDING);
      }
    }
  });

  it('fails nothing, and prints without support', () => {
    const { findings } = made(footJob(choices, (job) => Object.assign(job, { material })));
    expect(findings.filter(({ verdict }) => verdict === 'fails')).toEqual([]);
    for (const { id, verdict } of findings)
      if (/overhang|bridge|sound/.test(id)) expect(verdict, id).toBe('holds');
  });

  it('has its jaws as far apart as the readings say', () => {
    const { values } = read(footJob(choices));
    const callouts = caseFoot.callouts(values);
    const asked = askedReadings(caseFoot, values.choices).filter(
      ([, spec]) => spec.quantity === undefined && !spec.optional,
    );
    expect(asked.length).toBeGreaterThan(3);
    for (const [id] of asked) {
      const [a, b] = callouts[id]!;
      const size = (values as Readonly<Record<string, number>>)[id]!;
      expect(lengthOf(subtract(b, a)), id).toBeCloseTo(size, 9);
    }
  });
});

it('of the demo: nothing fails, nothing to caution about', () => {
  const { findings, chance, parts } = made(footDemo());
  expect(findings.filter(({ verdict }) => verdict !== 'holds')).toEqual([]);
  expect(chance).toBeGreaterThan(0.9);
  expect(parts).toHaveLength(1);
});

describe('standing', () => {
  it('four feet of an even machine carry a quarter each, and half in the worst stance with the centre known', () => {
    const result = made(
      footJob({}, (job) => {
        Object.assign(job.readings, { weight: ['4000'], frontEdge: ['20'], apart: ['200'], across: ['300'] });
        Object.assign(job.readings, { balance: ['120'], balanceAcross: ['150'] });
      }),
    );
    const { value, because } = findingOf(result, 'load');
    // 4 kg weigh 39.23 N. Two diagonal feet can carry it all, 19.6 N each; 10 mm off the centre, straight away from
    // the two other feet it stands on, which may lie 200 mm off, add a share of 10 / 200.
    const weight = 4 * 9.80665;
    expect(because).toContain(`${(weight / 4).toFixed(1)} N of the machine's ${weight.toFixed(1)} N`);
    expect(value).toBeCloseTo(weight * (0.5 + 10 / 200), 6);
  });

  it('a soft foot is drawn higher, by what a block of its shape gives: Gent and Lindley by hand', () => {
    const shore = 60;
    const result = made(
      footJob({ kind: 'stick-on' }, (job) => {
        job.sizes = { hardness: String(shore), tape: '0.2' };
        Object.assign(job.readings, { weight: ['20 kg'] });
      }),
    );
    const height = result.interfaces.find(({ id }) => id === 'height')!;
    const asked = (9.02 + 9.05) / 2 - 0.01 + (1.62 - 0.01) - 0.2;
    // E of 60 Shore A after Gent: 3.605 MPa. Diameter as drawn; E (1 + 2 S^2), S = D / 4 t; straight law.
    const D = result.interfaces.find(({ id }) => id === 'recess')!.drawn;
    const area = (Math.PI * D * D) / 4;
    const S = D / (4 * asked);
    const given = ((20 * 9.80665) / 4 / area / (3.605 * (1 + 2 * S * S))) * asked;
    expect(given).toBeGreaterThan(0.3);
    expect(height.host - asked).toBeGreaterThan(given * 0.95);
    // Large strains stiffen a little less than the straight law says, and the free block is higher: a tenth.
    expect(height.host - asked).toBeLessThan(given * 1.12);
    expect(findingOf(result, 'stands').value).toBeLessThan(0.2);
  });

  it('feet on one plane do not rock; one 0.5 mm short does, and is named', () => {
    const each = (rearRight: string) =>
      made(
        footJob({ feet: 'each' }, (job) => {
          job.readings.rearRight = [rearRight];
          job.readings.rearLeft = ['12.0'];
        }),
      );
    expect(findingOf(each('12.0'), 'rocking').value).toBeCloseTo(0, 9);
    const short = findingOf(each('11.5'), 'rocking');
    // It stands on the other three, or rocks over the diagonal of the two beside it.
    expect(short.value).toBeCloseTo(0.5, 6);
    expect(short.verdict).toBe('caution');
    expect(short.because).toContain('under the rear right foot');
  });

  it('leans by the arc sine of rise over distance', () => {
    const result = made(footJob({ feet: 'each' }));
    expect(findingOf(result, 'lean').value).toBeCloseTo((Math.asin(3 / 212) * 180) / Math.PI, 9);
    const riser = made(footJob({ kind: 'riser' }));
    expect(findingOf(riser, 'lean').value).toBeCloseTo((Math.asin(18 / 212) * 180) / Math.PI, 9);
  });

  it('a riser tips when pushed at its height harder than its load holds on half its base', () => {
    const result = made(footJob({ kind: 'riser' }));
    const base = 18.04 + 10;
    const load = (5.2 * 9.80665) / 4;
    expect(findingOf(result, 'tips').value! / ((load * base) / 2 / 18)).toBeCloseTo(1, 2);
    expect(findingOf(result, 'tips').limit).toBeCloseTo(5 / 4, 9);
  });

  it('a tall narrow riser tips, and TPU stays where PETG slides under a light machine', () => {
    const tall = made(
      footJob({ kind: 'riser' }, (job) => {
        Object.assign(job.readings, { rise: ['59'], footDiameter: ['6.5'], apart: ['300'], weight: ['800'] });
        job.sizes = { width: '9.2' };
      }),
    );
    expect(findingOf(tall, 'tips').verdict).toBe('fails');
    const light = (material: string) =>
      made(
        footJob({ kind: 'riser' }, (job) => {
          job.readings.weight = ['1100'];
          job.material = material;
        }),
      );
    expect(findingOf(light('PETG'), 'slides').verdict).toBe('caution');
    expect(findingOf(light('TPU'), 'slides').verdict).toBe('holds');
  });
});

describe('a push-in stem', () => {
  it('strains as a cantilever of its own section does, over the range of the hole', () => {
    const result = made(footJob({}, (job) => Object.assign(job, { material: 'PETG' })));
    const { value, limit, because } = findingOf(result, 'stem.strain');
    expect(value).toBeGreaterThan(0.5);
    expect(value).toBeLessThan(limit!);
    const hole = result.dimensions.hole!;
    const low = (hole.value - 2 * hole.u).toFixed(2);
    expect(because).toContain(`hole ${low} to ${(hole.value + 2 * hole.u).toFixed(2)} mm`);
  });

  it('in brittle plastic gets less overlap, or is said to break', () => {
    const stem = (material: string) => made(footJob({}, (job) => Object.assign(job, { material })));
    const overlap = (result: MakeResult) => {
      const barb = result.interfaces.find(({ id }) => id === 'barb')!;
      return -barb.clearance;
    };
    const [petg, pla] = [stem('PETG'), stem('PLA')];
    expect(overlap(pla)).toBeLessThan(overlap(petg));
    const forced = made(
      footJob({}, (job) => {
        job.material = 'PLA';
        job.sizes = { overlap: '0.9', slot: '1.4', root: '3' };
      }),
    );
    expect(findingOf(forced, 'stem.strain').verdict).toBe('fails');
  });

  it('holds better with more overlap, and goes in harder', () => {
    const stem = (overlap: string) =>
      made(
        footJob({}, (job) => {
          job.sizes = { overlap, slot: '1.2', root: '1' };
        }),
      );
    const [less, more] = [stem('0.4'), stem('0.8')];
    for (const id of ['stem.hold', 'stem.push', 'stem.strain'])
      expect(findingOf(more, id).value!).toBeGreaterThan(findingOf(less, id).value!);
  });

  it('with a hole read badly may fall out: said of the largest hole', () => {
    const loose = made(
      footJob({}, (job) => {
        job.readings.hole = ['6.3', '6.9', '6.5'];
        job.sizes = { overlap: '0.3' };
      }),
    );
    expect(findingOf(loose, 'stem.hold').verdict).toBe('fails');
  });
});

it('warns of tape, wherever a foot is stuck on', () => {
  const { cautions } = made(footJob({ kind: 'stick-on' }));
  expect(cautions.some((caution) => caution.includes('tape holds in shear and pull, not in peel'))).toBe(
    true,
  );
});

describe('is refused', () => {
  const fields = (choices: Record<string, string>, change: (job: PlainJob) => void) =>
    problemsIn(JSON.stringify(footJob(choices, change))).map(({ field }) => field);
  const reading = (id: string, ...texts: string[]) => ({
    why: id,
    change: (job: PlainJob) => void Object.assign(job.readings, { [id]: texts }),
  });
  const sized = (id: string, text: string) => ({
    why: id,
    change: (job: PlainJob) => void Object.assign(job.sizes, { [id]: text }),
  });
  it.each([
    ['a foot too low for its screw', { kind: 'screw-on' }, reading('height', '5.0'), 'readings.height'],
    [
      'one of four too low',
      { kind: 'screw-on', feet: 'each' },
      reading('rearRight', '5'),
      'readings.rearRight',
    ],
    ['a head no wider than its screw', { kind: 'screw-on' }, reading('head', '4.0'), 'readings.head'],
    ['a foot narrower than its head', { kind: 'screw-on' }, sized('width', '8'), 'sizes.width'],
    ['tape as thick as the recess', { kind: 'stick-on' }, sized('tape', '1.5'), 'sizes.tape'],
    ['a riser as steep as a ramp', { kind: 'riser' }, reading('apart', '40'), 'readings.rise'],
    ['a balance point before the feet', {}, reading('balance', '12'), 'readings.balance'],
    ['a balance point beside the feet', {}, reading('balanceAcross', '310'), 'readings.balanceAcross'],
    ['legs that begin below the desk', {}, sized('root', '12'), 'sizes.root'],
    ['slots that leave no legs', {}, sized('slot', '3.5'), 'sizes.slot'],
    ['a barb that no leg bends for', {}, sized('overlap', '1.5'), 'sizes.slot'],
    ['a case on stilts', { feet: 'each' }, reading('apart', '31'), ''],
    ['a hole out of range', {}, reading('hole', '30'), 'readings.hole[0]'],
  ] as const)('%s, by name', (_, choices, { change }, field) => {
    const blamed = fields(choices, (job) => {
      change(job);
      if (field === '') Object.assign(job.readings, { rearLeft: ['30'], rearRight: ['30'] });
    });
    expect(blamed).toContain(field === '' ? 'readings.rearLeft' : field);
  });
});
