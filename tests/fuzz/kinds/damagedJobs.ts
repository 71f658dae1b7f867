import fc from 'fast-check';
import { families } from '../../../parts/index.ts';
import { couponAction } from '../../../src/cli/coupon/couponAction.ts';
import { makeJob } from '../../../src/cli/makeJob.ts';
import { printVerdict } from '../../../src/cli/printVerdict.ts';
import { writeMade } from '../../../src/cli/writeMade.ts';
import { mustBeSoundFiles } from '../checks/soundFiles.ts';
import { commandRun, type Files } from '../commandRun.ts';
import { demoJobs, knownPrinters } from '../corpus.ts';
import { edited, edits } from '../damage/bytes.ts';
import { changed, changes } from '../damage/json.ts';
import { way, written } from '../damage/text.ts';
import { type Kind, kind, type Outcome } from '../kind.ts';

/** Bytes of a JSON file that something happened to: what it says, how it is written down, its bytes. */
export const damagedJson = (sound: readonly unknown[]): fc.Arbitrary<Uint8Array> =>
  fc
    .record({
      value: fc.nat(),
      said: fc.oneof({ weight: 5, arbitrary: changes }, { weight: 1, arbitrary: fc.constant([]) }),
      way,
      bytes: fc.oneof({ weight: 5, arbitrary: fc.constant([]) }, { weight: 1, arbitrary: edits }),
    })
    .map(({ value, said, way: how, bytes }) =>
      edited(written(changed(sound[value % sound.length], said), how), bytes),
    );

/** `fettle make` of the job in a folder. */
export async function madeInFolder(given: Files, job = 'any.job.json'): Promise<Outcome> {
  let family = '';
  const run = await commandRun(given, async (inFolder) => {
    const path = inFolder(job);
    const made = await makeJob(path, families);
    const { paths } = await writeMade(made, {
      base: 'part',
      out: inFolder('out'),
      sources: made.sources,
      ascii: false,
    });
    printVerdict(made.result, paths);
    family = made.prepared.family.id;
  });
  if (run.refused.length > 0) return { refused: run.refused };
  mustBeSoundFiles(run, { given: Object.keys(given) });
  return { made: family };
}

const job = kind<Uint8Array>({
  name: 'damaged job',
  few: 15,
  inputs: damagedJson(demoJobs()),
  attempt: (bytes) => madeInFolder({ 'any.job.json': bytes }),
  files: (bytes) => ({ 'any.job.json': bytes }),
});

const besides = JSON.stringify({ ...demoJobs()[0], printer: 'any.printer.json' });
const printer = kind<Uint8Array>({
  name: 'damaged printer',
  few: 20,
  inputs: damagedJson(knownPrinters()),
  attempt: (bytes) => madeInFolder({ 'any.job.json': besides, 'any.printer.json': bytes }),
  files: (bytes) => ({ 'any.printer.json': bytes, 'any.job.json': besides }),
});

const coupon = kind<Uint8Array>({
  name: 'coupon of a damaged printer',
  few: 2,
  inputs: damagedJson(knownPrinters()),
  attempt: async (bytes) => {
    const given = { 'any.printer.json': bytes };
    const run = await commandRun(given, (inFolder) =>
      couponAction(inFolder('any.printer.json'), inFolder('out'), false),
    );
    if (run.refused.length > 0) return { refused: run.refused };
    mustBeSoundFiles(run, { given: Object.keys(given) });
    return { made: 'made' };
  },
  files: (bytes) => ({ 'any.printer.json': bytes }),
});

export const damagedJobs: readonly Kind[] = [job, printer, coupon];
