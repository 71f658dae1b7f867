import { beforeAll, describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import type { LengthWish } from '../../src/job/changedLengths.ts';
import { donorJob } from '../../src/job/donorJob.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { loadKernel, type ManifoldToplevel } from '../../src/solid/kernel.ts';
import type { Shape } from '../../src/solid/shape.ts';
import type { RefusedJob } from '../../viewer/spine/answers.ts';
import { DonorModels } from '../../viewer/spine/tasks/donorModels.ts';
import { grantWish, lookAtModel, sheetOfModel } from '../../viewer/spine/tasks/donorSheet.ts';
import { taken } from '../../viewer/spine/tasks/takeAway.ts';
import { work } from '../../viewer/spine/tasks/work.ts';
import { bracket, lens, NECK, stlOf } from '../cli/donorModel.ts';
import { readStl } from '../output/readStl.ts';

let kernel: ManifoldToplevel;
let files: Readonly<Record<string, Uint8Array<ArrayBuffer>>>;
beforeAll(async () => {
  kernel = await loadKernel();
  const bytes = async (shape: Shape) => Uint8Array.from(await stlOf(shape));
  files = { 'bracket.stl': await bytes(bracket), 'lens.stl': await bytes(lens) };
});

/** A worker's models, with a page that has these files and counts what is fetched. */
function shop(there: Readonly<Record<string, Uint8Array>> = files) {
  const fetched: string[] = [];
  const models = new DonorModels(families, async () => kernel, {
    // Any text tells models apart here; the real page has their SHA-256.
    hash: async () => undefined,
    bytes: async (name) => {
      fetched.push(name);
      return there[name];
    },
    reads: async () => {},
  });
  const run = (job: JobFile) => models.withFamilies(job, (list) => work(kernel, list, job));
  return { models, fetched, run };
}

const jobOf = (file: string, donor: Partial<NonNullable<JobFile['donor']>> = {}): JobFile => {
  const job = donorJob({ file, bores: [], posts: [] });
  return { ...job, donor: { ...job.donor!, ...donor } };
};

const problemsOf = (answer: object): RefusedJob['problems'] => {
  if (!('kind' in answer) || answer.kind !== 'refused') throw new Error('was not refused');
  return (answer as RefusedJob).problems;
};

/** Extents and volume of an STL, by another program's reader and the divergence theorem. */
function measured(bytes: Uint8Array<ArrayBuffer>): {
  readonly volume: number;
  readonly extents: readonly number[];
} {
  const triangles = readStl(bytes);
  const six = triangles.reduce((sum, { corners: [a, b, c] }) => {
    const across = [b[1] * c[2] - b[2] * c[1], b[2] * c[0] - b[0] * c[2], b[0] * c[1] - b[1] * c[0]];
    return sum + a[0] * across[0]! + a[1] * across[1]! + a[2] * across[2]!;
  }, 0);
  const extents = [0, 1, 2].map((k) => {
    const all = triangles.flatMap(({ corners }) => corners.map((p) => p[k as 0 | 1 | 2]));
    return Math.max(...all) - Math.min(...all);
  });
  return { volume: six / 6, extents };
}

describe('a job that refits a model', () => {
  it('is made of the model the page has: shorter by what was asked, the rest as it was', async () => {
    const { models } = shop();
    const job = jobOf('bracket.stl', { changes: [{ axis: 'z', by: -3.4 }] });
    const answer = await models.withFamilies(job, (list) => taken(kernel, list, job, 'stl'));
    if ('kind' in answer) throw new Error(JSON.stringify(answer.problems));
    const [now, before] = [measured(answer[0]!.bytes), measured(files['bracket.stl']!)];
    expect(now.extents[2]).toBeCloseTo(before.extents[2]! - 3.4, 4);
    expect(now.extents[0]).toBeCloseTo(before.extents[0]!, 4);
    // The neck is a prism, so what is gone is its section times the length taken out.
    expect(before.volume - now.volume).toBeCloseTo(NECK * 3.4, 2);
  });

  it('draws a bore anew for what was measured', async () => {
    const { run } = shop();
    const job = { ...jobOf('bracket.stl'), readings: { bore1: ['2.98', '3.00', '3.02'] } };
    const answer = await run(job);
    if (answer.kind !== 'made') throw new Error(JSON.stringify(answer.problems));
    const [bore] = answer.result.interfaces;
    expect(bore).toMatchObject({ id: 'bore1', kind: 'bore' });
    expect(bore!.host).toBeCloseTo(3, 6);
    expect(bore!.drawn).toBeGreaterThan(3);
  });

  it('says which model is wanted where the page has none', async () => {
    const { run } = shop({});
    expect(problemsOf(await run(jobOf('bracket.stl')))).toEqual([
      expect.objectContaining({
        code: 'model_missing',
        field: 'donor.file',
        reason: '(model "bracket.stl") is not in this browser',
      }),
    ]);
  });

  it('says that a way has to be chosen, and is made once one is', async () => {
    const { run } = shop();
    const changes = [{ axis: 'z' as const, by: -3 }];
    const [problem] = problemsOf(await run(jobOf('lens.stl', { changes })));
    expect(problem).toMatchObject({ code: 'change_undecided', field: 'donor.changes' });
    const chosen = await run(jobOf('lens.stl', { changes: [{ ...changes[0]!, take: 1 }] }));
    expect(chosen.kind).toBe('made');
  });

  it('refuses a reading that a bore cannot follow, and names the reading', async () => {
    const { run } = shop();
    // The bore lies 4 mm from the edge of the base: nothing would be left around a shaft of 9 mm.
    const [problem] = problemsOf(await run({ ...jobOf('bracket.stl'), readings: { bore1: ['9'] } }));
    expect(problem).toMatchObject({ field: 'readings.bore1' });
  });

  it('without a donor in it says so', async () => {
    const { donor: _, ...job } = jobOf('bracket.stl');
    expect(problemsOf(await shop().run(job))).toEqual([expect.objectContaining({ code: 'donor_missing' })]);
  });

  it('leaves jobs of other kinds alone', async () => {
    const { models, fetched } = shop();
    const job: JobFile = { fettle: 1, family: 'case-foot' };
    expect(await models.withFamilies(job, (list) => list)).toBe(families);
    expect(fetched).toEqual([]);
  });
});

describe('a model that is kept', () => {
  it('is fetched once for all that is asked of it, and again for another', async () => {
    const fetched: string[] = [];
    const models = new DonorModels(families, async () => kernel, {
      hash: async (name) => known[name],
      bytes: async (name) => {
        fetched.push(name);
        return files[name];
      },
      reads: async () => {},
    });
    const known: Record<string, string> = {
      'bracket.stl': models.read('x.stl', files['bracket.stl']!, undefined).hash,
    };
    const job = jobOf('bracket.stl');
    await models.refit(job);
    await models.withFamilies(job, (list) => list.length);
    expect(fetched).toEqual([]);
    await models.refit(jobOf('lens.stl'));
    expect(fetched).toEqual(['lens.stl']);
  });
});

describe('a file that is no model', () => {
  it('is refused in one line, naming nothing of a job', async () => {
    const { models } = shop();
    const empty = new TextEncoder().encode('solid nothing\nendsolid nothing\n');
    const problems = problemsOf(await lookAtModel(models, 'empty.stl', empty));
    expect(problems).toHaveLength(1);
    expect(problems[0]!.field).toBe('');
  });
});

describe('the sheet about a model', () => {
  it('shows the change that a length read on the machine asks for, with the ways to make it', async () => {
    const { models } = shop();
    const job = { ...jobOf('lens.stl'), readings: { lengthZ: ['17'] } };
    const sheet = await sheetOfModel(models, async () => kernel, job, { axis: 2, roll: 0 });
    if ('kind' in sheet) throw new Error(JSON.stringify(sheet.problems));
    const [change] = sheet.changes;
    expect(change).toMatchObject({ of: 'lengthZ', taken: null });
    expect(change!.by).toBeCloseTo(-3, 3);
    expect(change!.ways.length).toBeGreaterThan(1);
  });

  it('grants a wish in words of the job file', async () => {
    const { models } = shop();
    const wish: LengthWish = { kind: 'add', axis: [0, 0, 1], by: -3.4 };
    const granted = await grantWish(models, async () => kernel, jobOf('bracket.stl'), wish);
    expect(granted).toEqual({ changes: [{ axis: 'z', by: -3.4 }], lopsided: false });
  });
});
