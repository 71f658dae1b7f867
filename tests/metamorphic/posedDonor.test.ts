import { readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { type Donor, openDonor } from '../../src/donor/donor.ts';
import type { RoundFeature } from '../../src/donor/features/types.ts';
import { readDonor } from '../../src/donor/read/readDonor.ts';
import { proposeRefit, refit } from '../../src/donor/respace/proposeRefit.ts';
import { plainSpans } from '../../src/donor/spans/plainSpans.ts';
import type { DonorMesh } from '../../src/donor/types.ts';
import { donorFamily } from '../../src/job/donorFamily.ts';
import { taskOfDonor } from '../../src/job/donorTask.ts';
import { make } from '../../src/job/make.ts';
import { prepare } from '../../src/job/prepare.ts';
import { parseJob } from '../../src/job/readJob.ts';
import type { MakeResult } from '../../src/job/result.ts';
import { loadKernel, Scope } from '../../src/solid/kernel.ts';
import { realise } from '../../src/solid/realise.ts';
import { dot, lengthOf, subtract, type Vec3 } from '../../src/solid/vector.ts';
import { bracket } from '../cli/donorModel.ts';
import { blockWithRounds, drawsOf } from '../donor/features/syntheticDonor.ts';
import { donorOf } from '../donor/respace/donorOf.ts';
import { demo } from '../job/demo.ts';
import { runs } from './anyJob.ts';
import {
  direction,
  mirrored,
  type Pose,
  point,
  posed,
  posedFile,
  quarterAboutX,
  quarterAboutZ,
  shifted,
  turnedAnyhow,
} from './posedDonor.ts';

const kernel = await loadKernel();
const scope = new Scope(kernel);
afterAll(() => scope.close());

const model = (name: string): DonorMesh => readDonor(readFileSync(`tests/donor/models/${name}`), name).mesh;
const drawn = (seed: number): DonorMesh => blockWithRounds(scope, drawsOf(seed)).mesh;

/** A bracket, a drilled plate that somebody else drew, and blocks with bores and posts at random. */
const donors: readonly (readonly [string, DonorMesh])[] = [
  ['bracket', donorOf(realise(scope, bracket))],
  ['plate_holes.STL', model('plate_holes.STL')],
  ...Array.from({ length: runs(1) }, (_, k) => [`block ${k}`, drawn(500 + k)] as const),
];
const straight = [shifted, mirrored, quarterAboutZ, quarterAboutX];
const askew = [turnedAnyhow([0.4, 1.1, -0.7])];

const axes: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const open = (mesh: DonorMesh, pose: Pose): Donor =>
  openDonor(posedFile(mesh, pose), 'part.stl', { unit: 'mm' });
const inPlace: Pose = {
  name: 'in place',
  rows: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  by: [0, 0, 0],
};
/** Files hold 32-bit numbers: a coordinate of 100 mm is good to 4e-6, what is reckoned from many to some times that. */
const ROUNDING = 5e-5;

/** The feature of `list` that lies where `one` does after the move. */
const counterpart = <T extends RoundFeature>(list: readonly T[], one: RoundFeature, pose: Pose): T =>
  list.reduce((a, b) => (distance(b, one, pose) < distance(a, one, pose) ? b : a));
const distance = ({ at, diameter }: RoundFeature, one: RoundFeature, pose: Pose): number =>
  lengthOf(subtract(at, point(pose, one.at))) + Math.abs(diameter - one.diameter);

describe.each(donors)('%s', (_, mesh) => {
  const before = open(mesh, inPlace);

  it.each([...straight, ...askew].map((pose) => [pose.name, pose] as const))(
    '%s has the same stretches that can change',
    (_name, pose) => {
      const after = open(mesh, pose);
      let seen = 0;
      for (const axis of axes) {
        const along = direction(pose, axis);
        const off = dot(along, pose.by);
        const [one, other] = [plainSpans(before.mesh, axis), plainSpans(after.mesh, along)];
        expect(other.length, `${axis}`).toBe(one.length);
        one.forEach((span, k) => {
          seen++;
          const its = other[k]!;
          expect(Math.abs(its.from - off - span.from)).toBeLessThan(ROUNDING);
          expect(Math.abs(its.to - off - span.to)).toBeLessThan(ROUNDING);
          expect(Math.abs(its.area - span.area)).toBeLessThan(ROUNDING * (10 + span.area));
          expect(its.contours).toBe(span.contours);
        });
      }
      expect(seen).toBeGreaterThan(0);
    },
  );

  it.each([...straight, ...askew].map((pose) => [pose.name, pose] as const))(
    '%s has the same bores, posts, arcs and pockets',
    (_name, pose) => {
      const after = open(mesh, pose);
      for (const kind of ['bores', 'posts', 'arcs'] as const) {
        const [one, other] = [
          before.features[kind] as readonly RoundFeature[],
          after.features[kind] as readonly RoundFeature[],
        ];
        expect(other.length, kind).toBe(one.length);
        const met = new Set<string>();
        for (const feature of one) {
          const its = counterpart(other, feature, pose);
          met.add(its.id);
          expect(distance(its, feature, pose), feature.id).toBeLessThan(10 * ROUNDING);
          expect(Math.abs(dot(its.axis, direction(pose, feature.axis)))).toBeGreaterThan(1 - 1e-6);
          for (const key of [
            'inscribed',
            'circumscribed',
            'coverage',
            'facets',
            'depth',
            'length',
          ] as const) {
            const [a, b] = [feature, its].map(
              (of) => (of as unknown as Record<string, number | undefined>)[key],
            );
            if (a !== undefined) expect(Math.abs(b! - a), `${feature.id} ${key}`).toBeLessThan(10 * ROUNDING);
          }
          expect((its as { through?: boolean }).through).toBe((feature as { through?: boolean }).through);
        }
        expect(met.size).toBe(one.length);
      }
      const pockets = ({ features }: Donor) =>
        features.pockets
          .map(({ kind, width, length, depth, through }) =>
            [kind, width.toFixed(3), length.toFixed(3), depth.toFixed(3), through].join(' '),
          )
          .sort();
      expect(pockets(after)).toEqual(pockets(before));
    },
  );

  it.each([...straight, ...askew].map((pose) => [pose.name, pose] as const))(
    '%s is refitted to the refitted model, moved',
    (_name, pose) => {
      let made = 0;
      for (const axis of axes)
        for (const by of [2.5, -0.6]) {
          const proposal = proposeRefit(mesh, { axis, by });
          const along = direction(pose, axis);
          const again = proposeRefit(posed(mesh, pose), { axis: along, by });
          expect(again.exact, `${axis} ${by}`).toBe(proposal.exact);
          expect(again.mirror === null).toBe(proposal.mirror === null);
          if (!proposal.exact) continue;
          made++;
          const wanted = posed(refit(mesh, axis, proposal.choices[0]!), pose).positions;
          const found = refit(posed(mesh, pose), along, again.choices[0]!).positions;
          expect(found.length).toBe(wanted.length);
          // Levels are counted from where the first take-up starts; along a turned axis its lower end may be the other one.
          const off = [0, 1, 2].map((k) => found[k]! - wanted[k]!);
          let furthest = 0;
          for (let i = 0; i < found.length; i++)
            furthest = Math.max(furthest, Math.abs(found[i]! - wanted[i]! - off[i % 3]!));
          expect(furthest).toBeLessThan(1e-9 * 1e3);
        }
      expect(made).toBeGreaterThan(0);
    },
  );
});

/** A printer to which x and y are alike and nothing leans, so that turning on the bed changes nothing. */
const evenPrinter = (() => {
  const { printer } = demo();
  return { ...printer, scale: { ...printer.scale, y: printer.scale.x }, skew: { value: 0, u: 0 } };
})();

describe('a job for a moved model has the same verdicts', () => {
  const mesh = donors[0]![1];
  const before = open(mesh, inPlace);
  const [bore, post] = [before.features.bores[0]!, before.features.posts[0]!];

  function made(
    donor: Donor,
    pose: Pose,
    lay: string,
    length: string,
  ): { result: MakeResult; names: Map<string, string> } {
    const ids = {
      bore: counterpart(donor.features.bores, bore, pose).id,
      post: counterpart(donor.features.posts, post, pose).id,
    };
    const job = {
      ...{ fettle: 1, family: 'donor', material: 'PETG', printer: evenPrinter, choices: { lay } },
      donor: { file: 'part.stl', units: 'mm' },
      readings: { [ids.bore]: ['3.30', '3.32'], [ids.post]: ['4.12', '4.10'], [length]: ['31.20', '31.22'] },
    };
    const stand = donorFamily(
      kernel,
      taskOfDonor({ file: 'part.stl', changes: [], lopsided: false }, donor, '', { unit: 'mm' }),
    );
    const prepared = prepare(parseJob(job, [stand]).job, stand);
    const names = new Map([
      [ids.bore, 'bore'],
      [ids.post, 'post'],
      [length, 'length'],
    ]);
    return { result: make(kernel, prepared), names };
  }

  const plain = ({ result, names }: ReturnType<typeof made>) => {
    const named = (id: string) => id.replace(/[^.]+$/, (last) => names.get(last) ?? last);
    return {
      chance: result.chance,
      findings: new Map(
        result.findings.map(({ id, verdict, value, limit }) => [named(id), { verdict, value, limit }]),
      ),
      interfaces: new Map(
        result.interfaces.map(({ id, drawn, predicted, clearance, chance }) => [
          named(id),
          { drawn, predicted, clearance, chance },
        ]),
      ),
      volume: result.print.volume,
      layers: result.print.layers,
    };
  };

  it.each([
    [shifted, 'z', 'lengthZ'],
    [mirrored, 'z', 'lengthZ'],
    [quarterAboutZ, 'z', 'lengthZ'],
    // z of the model points along -y after that turn or along y: whichever, that way up is the same as z up before.
    [quarterAboutX, direction(quarterAboutX, [0, 0, 1])[1] > 0 ? 'y' : '-y', 'lengthY'],
  ] as const)('%o', (pose, lay, length) => {
    const one = plain(made(before, inPlace, 'z', 'lengthZ'));
    const other = plain(made(open(mesh, pose), pose, lay, length));
    expect([...other.findings.keys()].sort()).toEqual([...one.findings.keys()].sort());
    expect(one.findings.size).toBeGreaterThan(8);
    for (const [id, { verdict, value, limit }] of one.findings) {
      const its = other.findings.get(id)!;
      expect(its.verdict, id).toBe(verdict);
      if (value !== null)
        expect(Math.abs(its.value! - value), id).toBeLessThan(ROUNDING * (10 + Math.abs(value)));
      if (limit !== null) expect(its.limit!, id).toBeCloseTo(limit, 6);
    }
    for (const [id, sizes] of one.interfaces)
      for (const key of ['drawn', 'predicted', 'clearance', 'chance'] as const)
        expect(other.interfaces.get(id)![key], `${id} ${key}`).toBeCloseTo(sizes[key], 4);
    expect(other.chance!).toBeCloseTo(one.chance!, 4);
    expect(other.layers).toBe(one.layers);
    expect(Math.abs(other.volume / one.volume - 1)).toBeLessThan(1e-5);
  });
});
