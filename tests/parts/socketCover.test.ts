import { beforeAll, describe, expect, it } from 'vitest';
import socketCover from '../../parts/socket-cover/index.ts';
import { askedReadings } from '../../src/family/family.ts';
import { build, make } from '../../src/job/make.ts';
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
import { coverDemo, coverJob, options } from './coverJob.ts';
import { findingOf } from './findingOf.ts';
import { measuredCover } from './measureCover.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const made = (job: PlainJob): MakeResult => make(kernel, read(job));

const sizes =
  (told: Record<string, string>) =>
  (job: PlainJob): void => {
    job.sizes = told;
  };
const says =
  (label: string, told: Record<string, string> = {}) =>
  (job: PlainJob): void => {
    Object.assign(job, { texts: { label }, sizes: told });
  };

/** Builds a job, and measures the mesh as it goes to the file, and the predicted print. */
function built(prepared: Prepared) {
  const planned = plan(prepared);
  const { values } = prepared;
  const row = { form: values.choices.opening!, pitch: values.pitch || Infinity };
  return withScope(kernel, (scope) => {
    const { solid, predicted, onBed } = build(scope, prepared, planned);
    const mesh = meshOf(solid);
    const file = asFiled(kernel, scope, mesh);
    const where = planned.interfaces.map(({ id, kind, at, across, host }) => ({
      ...{ id, kind, host, at: place(onBed, at), across: turn(onBed, across) },
    }));
    const genus = socketCover.genus(values);
    return {
      planned,
      genus,
      faults: faultsOf(soundnessOf(mesh), genus),
      printFaults: faultsOf(soundnessOf(meshOf(predicted)), genus),
      drawn: measuredCover(file, where, row),
      printed: measuredCover(predicted, where, row),
    };
  });
}

/** How far a measured size may lie from the one drawn, and from the one predicted, mm. */
const DRAWN = 0.006;
const PRINTED = 0.02;
/** Coordinates of the file are 32-bit: within some hundred mm that is a few hundred-thousandths. */
const ROUNDING = 5e-5;

/** Every opening with everything that can hold the cover and every connector; what else can be chosen goes round. */
const combinations = options('opening').flatMap((opening, i) =>
  options('held').flatMap((held, j) =>
    options('connector').map((connector, k) => {
      const pick = (id: string, n: number) => options(id)[n % options(id).length]!;
      const sits = pick('sits', i + j + k);
      const openings = pick('openings', i + k);
      return { opening, held, connector, sits, openings, vents: pick('vents', j + k) };
    }),
  ),
);

/** Typical readings, with what must leave room for the rest made large enough. */
const chosen = (choices: Record<string, string>): PlainJob =>
  coverJob(choices, (job) => {
    const put = (id: string, mm: number) => {
      if (id in job.readings) job.readings[id] = [mm.toFixed(2)];
    };
    const span = 34 + 42 * options('openings').indexOf(choices.openings ?? 'one');
    put('screwSpacing', span + 14);
    put('recessWidth', span + 32);
    put('rowWidth', span + 32);
    put('connectorDiameter', 3.6);
    put('connectorFlat', 3.1);
  });

describe.each(combinations)(
  '$opening, $openings, $held, $sits, connector $connector, vents $vents',
  (choices) => {
    it('is one sound body with its sizes as drawn, and prints as predicted', () => {
      const { planned, genus, faults, printFaults, drawn, printed } = built(read(chosen(choices)));
      expect(faults).toEqual([]);
      expect(printFaults).toEqual([]);
      expect(genus).toBeGreaterThanOrEqual(
        (choices.connector === 'none' ? 0 : 1) + (choices.held === 'screws' ? 2 : 0),
      );
      expect(planned.interfaces.length).toBeGreaterThan(0);
      for (const { id, kind, drawn: size, predicted } of planned.interfaces) {
        const [file, print] = [drawn[id]!, printed[id]!];
        expect(Math.abs(file - size), `${id}: ${file} drawn ${size}`).toBeLessThan(DRAWN);
        // Facets never make a fit tighter than it was drawn.
        if (kind === 'bore' || kind === 'slot') expect(file, id).toBeGreaterThan(size - ROUNDING);
        if (kind === 'post' || kind === 'rib') expect(file, id).toBeLessThan(size + ROUNDING);
        expect(Math.abs(print - predicted), `${id}: ${print} predicted ${predicted}`).toBeLessThan(PRINTED);
      }
    });
  },
);

describe('callouts', () => {
  it.each(combinations)(
    '$opening, $held, $sits, $connector: the jaws stand as far apart as the reading says',
    (choices) => {
      const { values } = read(chosen({ ...choices, near: 'left' }));
      const callouts = socketCover.callouts(values);
      for (const [id] of askedReadings(socketCover, { ...values.choices })) {
        const [a, b] = callouts[id]!;
        expect(lengthOf(subtract(b, a)), id).toBeCloseTo(
          (values as Readonly<Record<string, number>>)[id]!,
          9,
        );
      }
    },
  );
});

describe('the demo', () => {
  it('holds in everything, and says what to mind', () => {
    const result = made(coverDemo());
    expect(result.findings.filter(({ verdict }) => verdict !== 'holds')).toEqual([]);
    expect(result.chance).toBeGreaterThan(0.95);
    expect(result.cautions.join()).toMatch(/qualified person/);
    expect(result.assembly?.steps).toHaveLength(1);
  });
});

describe('what may lie behind', () => {
  it.each(options('behind'))('%s', (behind) => {
    const result = made(coverJob({ behind }));
    const { verdict, because } = findingOf(result, 'behind');
    expect(verdict).toBe(behind === 'low voltage only' ? 'holds' : 'fails');
    expect(because).toMatch(behind === 'low voltage only' ? /no permission/ : /does not call this part fit/);
    expect(result.cautions.join()).toMatch(/no rated enclosure/);
  });

  it('counts as the worst when the job does not say', () => {
    const job = coverDemo();
    Reflect.deleteProperty(job.choices, 'behind');
    expect(findingOf(made(job), 'behind').verdict).toBe('fails');
  });
});

describe('the panel', () => {
  it('that differs from place to place leaves more play, and keeps the arms more bent', () => {
    const of = (readings: string[]) => {
      const result = made(
        coverJob({ held: 'spring arms' }, (job) => {
          job.readings.panelThickness = readings;
        }),
      );
      return { play: findingOf(result, 'arms.play').value!, seated: findingOf(result, 'arms.seated').value! };
    };
    const [even, uneven] = [
      of(['2.50', '2.51', '2.49', '2.50', '2.50']),
      of(['2.40', '2.60', '2.45', '2.55', '2.50']),
    ];
    expect(uneven.play).toBeGreaterThan(even.play + 0.05);
    expect(uneven.seated).toBeGreaterThan(even.seated);
  });

  it('with a part close beside the noses: they clash, and further away they do not', () => {
    const gap = (mm: string) =>
      findingOf(
        made(
          coverJob({ held: 'spring arms', near: 'above' }, (job) => {
            job.readings.nearGap = [mm];
            job.readings.nearDepth = ['3'];
          }),
        ),
        'gap.beside.drawn',
      );
    expect(gap('0.1').verdict).toBe('fails');
    expect(gap('0.5').verdict).toBe('caution');
    expect(gap('3').verdict).toBe('holds');
    // A nose stands out past the edge by the bite, so the rest of the way is clear.
    const bite = (read(coverJob({ held: 'spring arms' })).values as Readonly<Record<string, number>>).bite!;
    expect(gap('0.6').value).toBeCloseTo(0.6 - bite, 1);
  });

  it('is overlapped by the plate as far as it was drawn, less half the play', () => {
    const result = made(coverJob({ held: 'glue' }));
    const { value, details } = findingOf(result, 'overlap');
    expect(value).toBeLessThan(2.5 - 0.1);
    expect(value).toBeGreaterThan(2.5 - 0.6);
    expect(Object.keys(details!)).toHaveLength(2);
    const thin = made(coverJob({ held: 'glue' }, sizes({ overlap: '1' })));
    expect(findingOf(thin, 'overlap').value! - value!).toBeCloseTo(-1.5, 1);
  });
});

describe('slots', () => {
  it.each([
    ['0.8', 'holds', 'holds'],
    ['1.4', 'caution', 'holds'],
    ['6', 'caution', 'holds'],
  ])('of %s mm: a wire %s, a finger %s', (vent, wire, finger) => {
    const result = made(coverJob({ vents: 'slots', held: 'glue' }, sizes({ vent })));
    expect(findingOf(result, 'probe.wire').verdict).toBe(wire);
    expect(findingOf(result, 'probe.finger').verdict).toBe(finger);
    expect(findingOf(result, 'probe.wire').value).toBe(Number(vent));
    // IEC 60950-1, 4.6.1: slots up to 1 mm, or openings up to 5 mm each way.
    expect(findingOf(result, 'vents.fire').verdict).toBe(Number(vent) <= 1 ? 'holds' : 'caution');
  });
});

describe('refusals name the reading', () => {
  const refused = (choices: Record<string, string>, change: (job: PlainJob) => void) =>
    problemsIn(JSON.stringify(coverJob(choices, change))).map(({ field }) => field);
  const reading =
    (id: string, mm: string) =>
    (job: PlainJob): void => {
      job.readings[id] = [mm];
    };
  it.each([
    [{ opening: 'rounded' }, reading('cornerRadius', '12'), 'readings.cornerRadius'],
    [{ opening: 'D' }, reading('openingFlat', '27'), 'readings.openingFlat'],
    [{ opening: 'slotted' }, reading('openingWidth', '20'), 'readings.openingWidth'],
    [{ openings: 'two' }, reading('pitch', '34.5'), 'readings.pitch'],
    [{ sits: 'flush' }, reading('recessWidth', '35'), 'readings.recessWidth'],
    [{ sits: 'flush' }, reading('recessHeight', '23'), 'readings.recessHeight'],
    [{ held: 'screws' }, reading('screwSpacing', '36'), 'readings.screwSpacing'],
    [{ held: 'spring arms' }, reading('roomBehind', '5'), 'readings.roomBehind'],
    [{ held: 'spring arms' }, reading('openingHeight', '4.2'), 'readings.openingHeight'],
    [{ connector: 'round' }, reading('connectorDiameter', '19'), 'readings.connectorDiameter'],
    [{ connector: 'D' }, reading('connectorFlat', '4.5'), 'readings.connectorFlat'],
    [{ lettering: 'sunk' }, says('MUCH TOO LONG A LABEL'), 'choices.lettering'],
    [{ lettering: 'sunk' }, says('AUX', { letterHeight: '14' }), 'sizes.letterHeight'],
    [{ sits: 'recessed' }, sizes({ flange: '3' }), 'sizes.flange'],
    [{ held: 'spring arms' }, sizes({ reach: '0.6', bite: '1.2' }), 'sizes.reach'],
    [{ held: 'spring arms' }, sizes({ arm: '2.5', reach: '1' }), 'sizes.arm'],
  ])('%j, case %#', (choices, change, field) => {
    expect(refused(choices, change)).toContain(field);
  });
});
