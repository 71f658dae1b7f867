import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import type { Values } from '../../src/family/values.ts';
import { aimOf } from '../../src/fit/classes.ts';
import { measurandOf, type Plan, plan } from '../../src/job/plan.ts';
import type { Prepared } from '../../src/job/prepare.ts';
import { Refused } from '../../src/job/problem.ts';
import type { Contributor } from '../../src/measure/types.ts';
import { drawnSize } from '../../src/printer/behaviour.ts';
import type { Known, PrinterProfile } from '../../src/printer/types.ts';
import { demo, type PlainJob, read, roundPost } from './demo.ts';

const uncalibrated = (job: PlainJob): void => void Reflect.deleteProperty(job, 'printer');
const closedRound = (job: PlainJob): void => {
  roundPost(job);
  job.choices.mouth = 'closed';
};
const upright = (job: PlainJob): void => {
  job.choices.lay = 'upright';
};
const narrowing = (job: PlainJob): void => {
  job.printer = { ...job.printer, boreCurvature: { value: 2, u: 0.02 } };
  job.readings.barDiameter = ['0.85'];
  job.readings.farSide = ['4.50'];
};

const jobs: readonly (readonly [string, (job: PlainJob) => void])[] = [
  ['the demo job', () => undefined],
  ['an uncalibrated printer', uncalibrated],
  ['a closed clip with a round post', closedRound],
  [
    'a bore',
    (job) => {
      job.choices.guide = 'bore';
    },
  ],
  ['upright', upright],
  ['a printer that narrows a small bore by half', narrowing],
];

const outer = (kind: string): boolean => kind === 'post' || kind === 'rib';

describe.each(jobs)('drawn sizes of %s', (name, change) => {
  const prepared = read(demo(change));
  const planned = plan(prepared);

  it('settle: another round changes nothing above 1e-4 mm', () => {
    for (const one of planned.interfaces) {
      const target = one.host + (outer(one.kind) ? -1 : 1) * aimOf(one.window);
      const again = drawnSize(
        target,
        measurandOf(one, planned.lay, prepared.printer, planned.heights),
        prepared.printer,
      );
      expect(Math.abs(again - one.drawn), one.id).toBeLessThan(1e-4);
    }
  });

  it('print at the machine size and the middle of the window, or as near as whole layers come', () => {
    const standing = name === 'upright' ? ['bar', 'drop'] : ['socket.length'];
    for (const { id, kind, host, window, predicted, drawn, clearance } of planned.interfaces) {
      const sense = outer(kind) ? -1 : 1;
      const target = host + (sense * (window.lo + window.hi)) / 2;
      expect(clearance).toBeCloseTo(sense * (predicted - host), 12);
      if (standing.includes(id)) {
        const layers = drawn / prepared.printer.layer;
        expect(Math.abs(layers - Math.round(layers)), id).toBeLessThan(1e-9);
        expect(Math.abs(predicted - target), id).toBeLessThanOrEqual(prepared.printer.layer / 2 + 1e-9);
      } else expect(Math.abs(predicted - target), id).toBeLessThan(1e-6);
    }
  });
});

it('counts a thicker first layer as one layer', () => {
  const { drawn } = plan(
    read(
      demo((job) => {
        job.printer = { ...job.printer, firstLayer: 0.28 };
      }),
    ),
  );
  const above = (drawn['socket.length']! - 0.28) / 0.2;
  expect(above).toBeCloseTo(Math.round(above), 9);
});

describe('a fit that cannot be made', () => {
  it('is refused with the fit to blame', () => {
    const prepared = read(
      demo((job) => {
        job.fits.bar = [-2, -1.9];
        job.fits.mouth = [-1.9, -1.7];
      }),
    );
    let problems: Refused['problems'] = [];
    try {
      plan(prepared);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      problems = error.problems;
    }
    expect(problems.map(({ field, value }) => [field, value])).toEqual([
      ['fits.bar', '[-2,-1.9]'],
      ['fits.mouth', '[-1.9,-1.7]'],
    ]);
    for (const { reason, allowed } of problems) {
      expect(reason).toMatch(/asks .* to print at -0\.\d\d mm on a machine of 1\.59 mm/);
      expect(allowed).toMatch(/above 0 mm/);
    }
  });
});

describe('a fit stated in the job', () => {
  it('stands instead of the normal one', () => {
    const { interfaces } = plan(
      read(
        demo((job) => {
          job.fits.bar = 'free';
          job.fits['socket.width'] = [0.04, 0.08];
        }),
      ),
    );
    const by = (id: string) => interfaces.find((one) => one.id === id)!;
    expect(by('bar').window).toEqual({ lo: 0.3, hi: 0.6 });
    expect(by('bar').clearance).toBeCloseTo(0.45, 6);
    expect(by('socket.width').clearance).toBeCloseTo(0.06, 6);
  });

  it('may be an ISO 286 code, whose clearance is that of the size of the machine', () => {
    const { interfaces } = plan(
      read(
        demo((job) => {
          job.fits.bar = 'H11/d11';
          job.fits['socket.width'] = 'H8/f7';
        }),
      ),
    );
    const by = (id: string) => interfaces.find((one) => one.id === id)!;
    // ISO 286-1, tables 1 and 4. Bar of 1.594 mm, up to 3 mm: H11 +60 / 0, d11 -20 / -80. Socket of 4.02 mm, 3 to 6 mm:
    // H8 +18 / 0, f7 -10 / -22.
    expect(by('bar').host).toBeLessThan(3);
    expect(by('bar').window).toEqual({ lo: 0.02, hi: 0.14 });
    expect(by('bar').clearance).toBeCloseTo(0.08, 6);
    expect(by('socket.width').host).toBeGreaterThan(3);
    expect(by('socket.width').window).toEqual({ lo: 0.01, hi: 0.04 });
    expect(by('socket.width').clearance).toBeCloseTo(0.025, 6);
  });
});

// ---- The machine and the printer once more, written from the design and not from the code ----

interface Machine {
  readonly bar: number;
  readonly width: number;
  readonly length: number;
  readonly far: number;
  readonly reach: number;
  readonly hinge: number;
  readonly rest: number;
  readonly travel: number;
}

/** How far the bar's end slides while the key goes down: from where it stands, step by step. */
function slide({ bar, far, reach, hinge, rest, travel }: Machine): number {
  const start = rest - (far - bar / 2) - hinge;
  const y = (down: number): number => Math.sqrt(reach * reach - (start - down) * (start - down));
  let [least, greatest] = [Infinity, -Infinity];
  for (let k = 0; k <= 8; k++) {
    const at = y((travel * k) / 8);
    if (at < least) least = at;
    if (at > greatest) greatest = at;
  }
  // Highest where the bar lies level, if it does within the travel.
  if (start >= 0 && start <= travel) greatest = reach;
  return greatest - least;
}

const hosts = (m: Machine): Record<string, number> => ({
  'socket.width': m.width,
  'socket.length': m.length,
  bar: m.bar,
  drop: m.far - m.bar / 2,
  'bar.run': m.bar + slide(m),
  mouth: m.bar,
});

interface Machinery {
  readonly sx: number;
  readonly sy: number;
  readonly sz: number;
  /** Growth of outer faces, shrink of bores a side, curvature, error of the first layer's height. */
  readonly g: number;
  readonly e: number;
  readonly c: number;
  readonly h: number;
}

/** Printed size on its side: part y lies along bed x, part z along bed y, part x stands up. */
function printedSizes(drawn: Readonly<Record<string, number>>, p: Machinery): Record<string, number> {
  const [w, overall] = [drawn.bar!, drawn['bar.run']!];
  // 4 A / P of a slot with round ends.
  const hydraulic = (4 * ((Math.PI * w * w) / 4 + w * (overall - w))) / (Math.PI * w + 2 * (overall - w));
  const hollow = (d: number, s: number): number => d * s - 2 * p.e - p.c / hydraulic;
  const all: Record<string, number> = {
    'socket.width': drawn['socket.width']! * p.sx + 2 * p.g,
    bar: hollow(w, p.sy),
    'bar.run': hollow(overall, p.sx),
    drop: drawn.drop! * p.sy + p.g,
  };
  if (drawn.mouth !== undefined) all.mouth = hollow(drawn.mouth, p.sx);
  if (drawn['socket.length'] !== undefined) all['socket.length'] = drawn['socket.length'] * p.sz + p.h;
  return all;
}

function draws(seed: number) {
  const generator = xoroshiro128plus(seed);
  const uniform = (): number => uniformFloat64(generator);
  // Box and Muller; student t as a normal over the root of a mean of squares.
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const gamma = (shape: number): number => {
    // Marsaglia and Tsang, shape 1 and above.
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = normal();
      const v = (1 + c * x) ** 3;
      if (v > 0 && Math.log(1 - uniform()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
    }
  };
  return {
    normal,
    rectangular: (): number => Math.sqrt(3) * (2 * uniform() - 1),
    student: (dof: number): number => normal() / Math.sqrt((2 * gamma(dof / 2)) / dof),
  };
}

const names: Readonly<Record<keyof Machine, string>> = {
  ...{ bar: 'barDiameter', width: 'socketWidth', length: 'socketLength', far: 'farSide' },
  ...{ reach: 'reach', hinge: 'hingeHeight', rest: 'restHeight', travel: 'travel' },
};

/** What a unit of a drawn error is: a Student t of so many degrees of freedom deviates by sqrt(dof / (dof - 2)). */
const unitOf = ({ u, deviation, dof }: Contributor): number =>
  deviation === undefined ? u : deviation * Math.sqrt((dof - 2) / dof);

/** Chances by 200,000 draws: what was read errs, the printer errs, every printed size is worked out anew. */
function monteCarlo(prepared: Prepared, planned: Plan, count: number, seed: number) {
  const { dimensions, printer } = prepared;
  const die = draws(seed);
  const draw = ({ distribution, dof }: Contributor): number =>
    distribution === 'normal'
      ? die.normal()
      : distribution === 'rectangular'
        ? die.rectangular()
        : die.student(dof);
  const keys = (Object.keys(names) as (keyof Machine)[]).map(
    (key) =>
      [key, dimensions[key === 'width' && !dimensions.socketWidth ? 'socketDiameter' : names[key]]] as const,
  );
  const near = (known: Known): number =>
    known.value + known.u * (printer.calibrated === null ? die.rectangular() : die.normal());
  const held = planned.interfaces.map(() => 0);
  let all = 0;
  for (let k = 0; k < count; k++) {
    // One error of the callipers' jaws for everything read with them, in units of each dimension's own u.
    const shared = new Map<string, number>();
    const machine = {} as Record<keyof Machine, number>;
    for (const [key, dimension] of keys) {
      machine[key] = dimension?.value ?? Number.NaN;
      for (const cause of dimension?.contributors ?? []) {
        const error = shared.get(cause.id) ?? draw(cause);
        shared.set(cause.id, error);
        machine[key] += unitOf(cause) * error;
      }
    }
    const host = hosts(machine);
    const printed = printedSizes(planned.drawn, {
      ...{ sx: near(printer.scale.x), sy: near(printer.scale.y), sz: near(printer.scale.z) },
      ...{ g: near(printer.outerGrowth), e: near(printer.boreShrink), c: near(printer.boreCurvature) },
      h: (0.05 / Math.sqrt(3)) * die.rectangular(),
    });
    let every = true;
    for (const [j, { id, kind, window }] of planned.interfaces.entries()) {
      const size = printed[id]! + printer.repeatability * die.normal();
      const clearance = outer(kind) ? host[id]! - size : size - host[id]!;
      if (clearance >= window.lo && clearance <= window.hi) held[j]!++;
      else every = false;
    }
    if (every) all++;
  }
  return { part: all / count, lines: held.map((n) => n / count) };
}

describe('chance, against 200,000 draws through the formulas themselves', () => {
  it.each([
    ['the demo job', () => undefined, 11],
    ['an uncalibrated printer', uncalibrated, 12],
    ['a closed clip with a round post', closedRound, 13],
    [
      'one reading of each, callipers of a tenth',
      (job: PlainJob) => {
        job.callipers = { scale: 'vernier', resolution: '0.1' };
        for (const [id, [first]] of Object.entries(job.readings)) job.readings[id] = [first!];
      },
      14,
    ],
  ] as const)('%s', (_, change, seed) => {
    const prepared = read(demo(change));
    const planned = plan(prepared);
    const drawn = monteCarlo(prepared, planned, 200_000, seed);
    for (const [k, { id, chance }] of planned.interfaces.entries())
      expect(Math.abs(chance - drawn.lines[k]!), id).toBeLessThan(0.005);
    expect(Math.abs(planned.chance.part - drawn.part)).toBeLessThan(0.005);
    // A chance of 0 or 1 would be no test of the reckoning.
    expect(planned.chance.part).toBeGreaterThan(0.1);
    expect(planned.chance.part).toBeLessThan(0.98);
  });
});

describe('sensitivities, against differences of the whole plan', () => {
  const prepared = read(demo());
  const planned = plan(prepared);
  const line = (id: string) => planned.problem.lines.find((one) => one.id === id)!;
  const listed = new Map(planned.problem.contributors.map((one) => [one.id, one]));

  /** How far each clearance moves when the machine is `by` larger than was read, drawn sizes as they are. */
  const moved = (reading: string, by: number) => {
    const at = (shift: number): Record<string, number> => {
      const value = (prepared.values as Readonly<Record<string, number>>)[reading]! + shift;
      const { interfaces } = plan({
        ...prepared,
        values: { ...prepared.values, [reading]: value } as Values,
      });
      return Object.fromEntries(interfaces.map((one) => [one.id, (outer(one.kind) ? 1 : -1) * one.host]));
    };
    const [above, below] = [at(by), at(-by)];
    return (id: string): number => (above[id]! - below[id]!) / (2 * by);
  };

  it.each(Object.keys(read(demo()).dimensions))('%s', (reading) => {
    const slope = moved(reading, 1e-4);
    for (const { id } of planned.interfaces) {
      const cause = `reading:${reading}`;
      expect(line(id).sensitivity[cause] ?? 0, id).toBeCloseTo(slope(id), 4);
    }
  });

  it('of a shared cause are the sum over what it disturbs, each with its own u', () => {
    // The drop hangs on the far side (depth rod) and on the bar (outside jaws); the run on both and on four more.
    for (const jaw of ['calliper:scale', 'calliper:depth', 'calliper:inside']) {
      for (const { id } of planned.interfaces) {
        let expected = 0;
        for (const dimension of Object.values(prepared.dimensions)) {
          const cause = dimension.contributors.find((one) => one.id === jaw);
          if (cause) expected += moved(dimension.id, 1e-4)(id) * cause.u;
        }
        const got = (line(id).sensitivity[jaw] ?? 0) * (listed.get(jaw)?.u ?? 0);
        expect(got, `${jaw} on ${id}`).toBeCloseTo(expected, 6);
      }
    }
  });

  const machinery = ({ scale, outerGrowth, boreShrink, boreCurvature }: PrinterProfile): Machinery => ({
    ...{ sx: scale.x.value, sy: scale.y.value, sz: scale.z.value },
    ...{ g: outerGrowth.value, e: boreShrink.value, c: boreCurvature.value, h: 0 },
  });

  it.each([
    ['printer:scale.x', 'sx'],
    ['printer:scale.y', 'sy'],
    ['printer:scale.z', 'sz'],
    ['printer:outerGrowth', 'g'],
    ['printer:boreShrink', 'e'],
    ['printer:boreCurvature', 'c'],
    ['printer:firstLayerError', 'h'],
  ] as const)('%s', (cause, key) => {
    const base = machinery(prepared.printer);
    const by = 1e-5;
    const above = printedSizes(planned.drawn, { ...base, [key]: base[key] + by });
    const below = printedSizes(planned.drawn, { ...base, [key]: base[key] - by });
    for (const { id, kind } of planned.interfaces) {
      const slope = ((outer(kind) ? -1 : 1) * (above[id]! - below[id]!)) / (2 * by);
      expect(line(id).sensitivity[cause] ?? 0, id).toBeCloseTo(slope, 6);
    }
  });

  it('add up to the uncertainty told', () => {
    for (const { id, u } of planned.interfaces) {
      let variance = line(id).spread ** 2;
      for (const [cause, by] of Object.entries(line(id).sensitivity))
        variance += (by * listed.get(cause)!.u) ** 2;
      expect(u).toBeCloseTo(Math.sqrt(variance), 12);
    }
  });
});
