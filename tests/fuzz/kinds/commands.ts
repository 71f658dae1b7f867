import fc from 'fast-check';
import { families } from '../../../parts/index.ts';
import { makeBundle } from '../../../src/cli/bundle/makeBundle.ts';
import { openBundle } from '../../../src/cli/bundle/openBundle.ts';
import { calibrateAction } from '../../../src/cli/calibrate/calibrateAction.ts';
import { couponAction } from '../../../src/cli/coupon/couponAction.ts';
import { drawLadder } from '../../../src/cli/ladder/drawLadder.ts';
import { plateAction } from '../../../src/cli/plate/plateAction.ts';
import { trialAction } from '../../../src/cli/trial/trialAction.ts';
import { readJob } from '../../../src/job/readJob.ts';
import { defaultPrinter } from '../../../src/printer/defaultPrinter.ts';
import type { PrinterProfile } from '../../../src/printer/types.ts';
import { mustBeSoundFiles } from '../checks/soundFiles.ts';
import { commandRun, type Files } from '../commandRun.ts';
import { couponTable, knownPrinters } from '../corpus.ts';
import { type Kind, kind, type Outcome } from '../kind.ts';
import type { AnyJob } from '../random/anyJob.ts';
import { anyPrinter } from '../random/anyPrinter.ts';
import { jobsOf } from './familyJobs.ts';

const anyOf = fc.oneof(...families.map(jobsOf));
const JOB = 'any.job.json';
const PRINTER = 'any.printer.json';
const asFile = (job: AnyJob): Files => ({ [JOB]: JSON.stringify(job, null, 2) });

async function ended(
  given: Files,
  mayChange: readonly string[],
  work: Parameters<typeof commandRun>[1],
): Promise<Outcome> {
  const run = await commandRun(given, work);
  if (run.refused.length > 0) return { refused: run.refused };
  mustBeSoundFiles(run, { given: Object.keys(given).filter((name) => !mayChange.includes(name)) });
  return { made: `exit ${run.code}` };
}

/** The places of a job where something is felt. */
function places(job: AnyJob): readonly string[] {
  try {
    const { family, values } = readJob(JSON.stringify(job), families);
    return family.interfaces(values, {}).map(({ id }) => id);
  } catch {
    return [];
  }
}

const plate = kind<{ readonly jobs: readonly AnyJob[]; readonly spacing: number }>({
  name: 'plate',
  few: 0,
  inputs: fc
    .record({ jobs: fc.array(anyOf, { minLength: 1, maxLength: 2 }), spacing: fc.constantFrom(1, 5, 50) })
    .map(({ jobs, spacing }) => ({
      spacing,
      // All for one printer and material, or there is nothing to lay out.
      jobs: jobs.map((job) => ({
        ...job,
        printer: jobs[0]!.printer,
        material: jobs[0]!.material,
        quantity: Math.min(12, Number(job.quantity)),
      })),
    })),
  attempt: ({ jobs, spacing }) => {
    const given = Object.fromEntries(jobs.map((job, k) => [`${k}.job.json`, JSON.stringify(job)]));
    return ended(given, [], async (inFolder) => {
      process.exitCode = await plateAction(
        Object.keys(given).map(inFolder),
        { out: inFolder('out'), json: false, spacing },
        families,
      );
    });
  },
  files: ({ jobs }) =>
    Object.fromEntries(jobs.map((job, k) => [`${k}.job.json`, JSON.stringify(job, null, 2)])),
});

const bundle = kind<AnyJob>({
  name: 'bundle and open',
  few: 0,
  inputs: anyOf,
  attempt: async (job) => {
    const terms = { author: 'M. Okafor', licence: 'CC-BY-4.0', json: false };
    const packed = await commandRun(asFile(job), (inFolder) =>
      makeBundle(inFolder(JOB), { out: inFolder('out'), ...terms }, families),
    );
    if (packed.refused.length > 0) return { refused: packed.refused };
    const asked = { printer: undefined, fresh: false, all: true, replace: false, json: false };
    const opened = await ended(Object.fromEntries(packed.files), [], (inFolder) =>
      openBundle(inFolder('out/any.fettle.zip'), { out: inFolder('opened'), ...asked }, families),
    );
    if ('refused' in opened) throw new Error(`what was packed is refused: ${opened.refused.join(' ')}`);
    return opened;
  },
  files: asFile,
});

const ladder = kind<{
  readonly job: AnyJob;
  readonly which: number;
  readonly rungs: number | undefined;
  readonly step: number | undefined;
}>({
  name: 'ladder',
  few: 0,
  inputs: fc.record({
    job: anyOf,
    which: fc.nat(),
    rungs: fc.constantFrom(undefined, 3, 7, 15),
    step: fc.constantFrom(undefined, 0.01, 0.05, 1),
  }),
  attempt: ({ job, which, rungs, step }) => {
    const ids = places(job);
    const name = ids[which % ids.length] ?? 'socket';
    return ended(asFile(job), [JOB], (inFolder) =>
      drawLadder(
        inFolder(JOB),
        which % 2 === 0 ? name : name.split('.')[0]!,
        { out: inFolder('out'), json: false, rungs, step },
        families,
      ),
    );
  },
  files: ({ job }) => asFile(job),
});

const trial = kind<{ readonly job: AnyJob; readonly words: readonly string[]; readonly note: string }>({
  name: 'trial',
  few: 1,
  inputs: fc.record({
    job: anyOf,
    words: fc.array(fc.constantFrom('tight', 'right', 'loose', 'short'), { minLength: 1, maxLength: 4 }),
    note: fc.constantFrom('', 'second one <b>', 'é'.repeat(900)),
  }),
  attempt: ({ job, words, note }) => {
    const ids = places(job);
    const felt = words.map((word, k) => `${ids[(k * 2) % Math.max(1, ids.length)] ?? 'bar'}=${word}`);
    return ended(asFile(job), [JOB], (inFolder) =>
      trialAction(inFolder(JOB), { felt, note, date: '2026-11-25', broken: ['the post'] }, families),
    );
  },
  files: ({ job }) => asFile(job),
});

const coupon = kind<{ readonly profile: PrinterProfile; readonly seed: number }>({
  name: 'coupon and calibrate',
  few: 0,
  inputs: fc.record({ profile: anyPrinter(knownPrinters()), seed: fc.integer({ min: 1, max: 1e6 }) }),
  attempt: async ({ profile, seed }) => {
    const given = { [PRINTER]: JSON.stringify(profile) };
    const drawn = await ended(given, [], (inFolder) =>
      couponAction(inFolder(PRINTER), inFolder('out'), false),
    );
    // A printer that no coupon suits has no readings either, and is refused the same way when some are brought.
    const table = 'refused' in drawn ? couponTable(defaultPrinter, seed) : couponTable(profile, seed);
    return ended({ ...given, 'read.csv': table }, [PRINTER], (inFolder) =>
      calibrateAction(inFolder(PRINTER), inFolder('read.csv'), { date: '2026-11-20' }),
    );
  },
  files: ({ profile }) => ({ [PRINTER]: JSON.stringify(profile, null, 2) }),
});

export const commands: readonly Kind[] = [plate, bundle, ladder, trial, coupon];
