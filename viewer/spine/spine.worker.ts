import '../../src/arithmetic/index.ts';
import { expose } from 'comlink';
import wasm from 'manifold-3d/manifold.wasm?url';
import { config } from 'zod';
import { families } from '../../parts/index.ts';
import { jobFacts } from '../../src/job/jobFacts.ts';
import { licenceOf } from '../../src/job/licence.ts';
import { newJob } from '../../src/job/newJob.ts';
import { parseJob } from '../../src/job/readJob.ts';
import { formInput } from '../../src/job/sheet.ts';
import { readingForm } from '../../src/output/readingForm/index.ts';
import { Remembered } from '../../src/remembered/remembered.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { shelfFromPage } from './modelShelf.ts';
import type { Spine } from './protocol.ts';
import { calibrated } from './tasks/calibrate.ts';
import { couponFacts, couponReadingsIn, couponTaken } from './tasks/coupon.ts';
import { DonorModels } from './tasks/donorModels.ts';
import { grantWish, lookAtModel, sheetOfModel } from './tasks/donorSheet.ts';
import { fitsOf } from './tasks/fits.ts';
import { inspected, printDrawn } from './tasks/inspect.ts';
import { judgedFacts, ladderFacts } from './tasks/ladder.ts';
import { openFile } from './tasks/openFile.ts';
import { bedOf } from './tasks/plate.ts';
import { PlateJobs } from './tasks/plateJobs.ts';
import { printReadingsIn } from './tasks/printReadingsIn.ts';
import { solidLines } from './tasks/solidLines.ts';
import { solidViewOf } from './tasks/solidView.ts';
import { taken } from './tasks/takeAway.ts';
import { changesSince, lastTakenBack, trialTold } from './tasks/trial.ts';
import { whyNotAlong } from './tasks/whyNotAlong.ts';
import { work } from './tasks/work.ts';

// Compiled schemas would need eval, which the page's policy forbids.
config({ jitless: true });

// Not awaited here: what the page sends before the worker listens would be lost.
const loading = loadKernel(() => wasm);
// Whoever asks hears of it; until somebody does it is no fault.
loading.catch(() => {});
// Tasks about a job take the families from here: a refit's is made of its model.
const shelf = shelfFromPage(self);
const models = new DonorModels(families, () => loading, shelf);
const plates = new PlateJobs(() => loading, models, shelf);

/** What was made of the last jobs: the next one differs from them by a keystroke, and picture, bed and files are of the same. */
const known = new Remembered();

const spine: Spine = {
  started: async () => true,
  work: (file) => models.withFamilies(file, async (families) => work(await loading, families, file, known)),
  facts: (file) =>
    models.withFamilies(file, (families) => {
      const { job, family } = parseJob(file, families);
      return jobFacts(job, family);
    }),
  form: (file, paper) =>
    models.withFamilies(file, async (families) => {
      const kernel = await loading;
      const { job, family } = parseJob(file, families);
      return readingForm(formInput(kernel, family, job), paper);
    }),
  fits: (file) => models.withFamilies(file, (families) => fitsOf(families, file)),
  licence: async (text) => licenceOf(text),
  families: async () => families.map(({ id, title, summary }) => ({ id, title, summary })),
  newJob: async (id) => {
    const family = families.find((one) => one.id === id);
    if (!family) throw new RangeError(`newJob requires a family there is (given ${id})`);
    return newJob(family);
  },
  openFile: async (bytes) => openFile(bytes, families),
  solidView: (file) =>
    models.withFamilies(file, async (families) => solidViewOf(await loading, families, file, known)),
  solidLines: async (part, machine, view) => solidLines(part, machine, view),
  takeAway: (file, kind, model) =>
    models.withFamilies(file, async (families) => taken(await loading, families, file, kind, model, known)),
  bed: (file) => models.withFamilies(file, async (families) => bedOf(await loading, families, file, known)),
  whyNotAlong: async (file, others) => whyNotAlong(families, file, others),
  plate: (jobs, spacing) => plates.facts(jobs, spacing),
  plateFiles: (jobs, kind, spacing) => plates.files(jobs, kind, spacing),
  coupon: async (printer, field) => couponFacts(await loading, printer, field),
  couponFiles: async (printer) => couponTaken(await loading, printer),
  couponReadings: async (printer, name, text, unit) => couponReadingsIn(printer, name, text, unit),
  calibrate: (file, printer, texts, date) =>
    models.withFamilies(file, async (families) =>
      calibrated(await loading, families, file, printer, texts, date, known),
    ),
  ladder: (file, name, options) =>
    models.withFamilies(file, async (families) => ladderFacts(await loading, families, file, name, options)),
  judgeLadder: (file, name, felt) =>
    models.withFamilies(file, (families) => judgedFacts(families, file, name, felt)),
  lookAtModel: (name, bytes) => lookAtModel(models, name, bytes),
  modelSheet: (file, asked) => sheetOfModel(models, () => loading, file, asked),
  changeLength: (file, wish) => grantWish(models, () => loading, file, wish),
  printReadings: (file, asked, name, text) =>
    models.withFamilies(file, (families) => printReadingsIn(families, file, asked, name, text)),
  print: (file, asked) => models.withFamilies(file, (families) => inspected(families, file, asked)),
  printForm: (file, asked, paper) =>
    models.withFamilies(file, async (families) => printDrawn(await loading, families, file, asked, paper)),
  trial: (file, asked, said) =>
    models.withFamilies(file, async (families) =>
      trialTold(await loading, families, file, asked, said, known),
    ),
  changesSince: (file, index) => models.withFamilies(file, (families) => changesSince(families, file, index)),
  takeTrialBack: (file) => models.withFamilies(file, (families) => lastTakenBack(families, file)),
};

expose(spine);
