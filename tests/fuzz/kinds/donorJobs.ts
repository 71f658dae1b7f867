import fc from 'fast-check';
import { type Donor, openDonor } from '../../../src/donor/donor.ts';
import { donorFamily } from '../../../src/job/donorFamily.ts';
import { donorStandIn } from '../../../src/job/donorStandIn.ts';
import { taskOfDonor } from '../../../src/job/donorTask.ts';
import { prepare } from '../../../src/job/prepare.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import { refusingRefit } from '../../../src/job/refusingRefit.ts';
import { loadKernel, withScope } from '../../../src/solid/kernel.ts';
import { meshOf } from '../../../src/solid/meshOf.ts';
import { realise } from '../../../src/solid/realise.ts';
import type { Shape } from '../../../src/solid/shape.ts';
import { bracket } from '../../cli/donorModel.ts';
import { plainStl } from '../../donor/files.ts';
import { anyDonor } from '../../donor/respace/anyDonor.ts';
import { knownPrinters } from '../corpus.ts';
import { type Kind, kind } from '../kind.ts';
import { type AnyJob, anyJob } from '../random/anyJob.ts';
import { anyHistory, withHistory } from '../random/history.ts';
import { madeInMemory } from './made.ts';

const kernel = await loadKernel();
const MODEL = 'any.stl';

/** A model as a plain STL, with nothing of the project's own writers. */
const stlOf = (shape: Shape): Uint8Array =>
  withScope(kernel, (scope) => {
    const { positions, triangles } = meshOf(realise(scope, shape));
    return plainStl({ positions: Float64Array.from(positions), triangles });
  });

const axis = fc.oneof(
  fc.constantFrom('x', 'y', 'z'),
  fc.constantFrom([1, 0, 2], [0, 1, 1], [1e-12, 0, 0], [-3, 0, 0]),
);
const change = fc.oneof(
  fc.record(
    { axis, by: fc.constantFrom('1', '-0.5', '0', 2, '-3.4', '1/8"', '-40', 300) },
    { requiredKeys: ['axis', 'by'] },
  ),
  fc.record(
    { axis, to: fc.constantFrom('20', '30.5', 45, '2 in'), take: fc.constantFrom(1, 1, 2, 3) },
    { requiredKeys: ['axis', 'to'] },
  ),
);
const told = fc.record({
  changes: fc.oneof(
    { weight: 2, arbitrary: fc.array(change, { maxLength: 0 }) },
    { weight: 1, arbitrary: fc.array(change, { maxLength: 2 }) },
  ),
  lopsided: fc.boolean(),
  take: fc.record(
    { lengthX: fc.constantFrom(1, 2), lengthY: fc.constant(1), lengthZ: fc.constant(1) },
    { requiredKeys: [] },
  ),
});

interface Refit {
  readonly stl: Uint8Array;
  readonly donor: Donor | undefined;
  readonly job: AnyJob;
}

const familyOf = (donor: Donor, job: AnyJob) => {
  const { job: parsed } = parseJob(job, [donorStandIn]);
  return refusingRefit(() => donorFamily(kernel, taskOfDonor(parsed.donor!, donor, 'f'.repeat(64), parsed)));
};
const read = (donor: Donor) => (job: unknown) => {
  const parsed = parseJob(JSON.parse(JSON.stringify(job)), [donorStandIn]).job;
  return prepare(parsed, familyOf(donor, job as AnyJob));
};

/** Models of random plates with bores, posts and ribs, and jobs over all that may be read and changed of each. */
const refits: fc.Arbitrary<Refit> = fc
  .tuple(
    fc.oneof({ weight: 1, arbitrary: fc.constant(bracket) }, { weight: 2, arbitrary: anyDonor }),
    told,
    fc.constantFrom(1, 1, 1 / 25.4),
  )
  .chain(([shape, asked, scale]) => {
    const stl = stlOf(shape);
    const plain = {
      fettle: 1,
      family: 'donor',
      donor: { file: MODEL, units: scale === 1 ? 'mm' : 'cm' },
    } as unknown as AnyJob;
    const donor = openDonor(stl, MODEL, { unit: 'mm' });
    const family = familyOf(donor, plain);
    // Nothing of a model is read unless somebody wants it otherwise, so the changes come last: they can make all readings impossible.
    const own = read(donor);
    return fc
      .tuple(anyJob(family, own, { donor: { file: MODEL, units: 'mm' } }, knownPrinters()), anyHistory)
      .map(([job, history]) => withHistory(job, history, own))
      .map((job) => ({ stl, donor, job: { ...job, donor: { file: MODEL, units: 'mm', ...asked } } }));
  });

export const donorJobs: readonly Kind[] = [
  kind<Refit>({
    name: 'make donor',
    few: 2,
    inputs: refits,
    attempt: async ({ donor, job }) =>
      madeInMemory(() => read(donor!)(job), { ascii: false, with: [], ours: false }),
    files: ({ stl, job }) => ({ [MODEL]: stl, 'any.job.json': JSON.stringify(job, null, 2) }),
  }),
];
