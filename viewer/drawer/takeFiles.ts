import { bundleLimits } from '../../src/job/bundleLimits.ts';
import { type Problem, sentence } from '../../src/job/problem.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { stepsOf } from '../../src/job/stepsOf.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import type { OpenedFile } from '../spine/answers.ts';
import { type Drawer, type Told, titleOf } from './drawer.ts';
import { withProfile } from './withProfile.ts';

/** Takes files that were chosen or dropped: jobs, bundles and printers into the drawer, the last job on the bench. A
 *  printer that comes along with a job that names it goes into it. */
export async function takeFiles(drawer: Drawer, files: readonly File[], now: number): Promise<void> {
  const { bench } = drawer;
  const lines: string[] = [];
  const opened: { readonly name: string; readonly file: OpenedFile }[] = [];
  for (const file of files) {
    const found = await read(drawer, file);
    if ('problems' in found) lines.push(...found.problems.map((problem) => sentence(file.name, problem)));
    else if (found.file) opened.push({ name: file.name, file: found.file });
  }
  const printers = opened.flatMap(({ name, file }) =>
    file.kind === 'printer' ? [{ name, profile: file.profile }] : [],
  );
  const jobs = opened.flatMap(({ file }) => (file.kind === 'job' ? [file] : []));
  for (const { profile } of printers) await drawer.keepPrinter(profile, now);
  for (const { job, model } of jobs) {
    const models = model ? { [model.name]: await drawer.putModel(model) } : {};
    await drawer.add(withPrinter(job, printers), models);
  }
  if (jobs.length === 0 && printers[0] && typeof bench.job.peek().printer === 'string')
    drawer.usePrinter(printers[0].profile);
  const told = [
    ...jobs.map(({ job }) => `${titleOf(job)} is on the bench`).slice(-1),
    ...printers.map(({ profile }) => `Printer ${profile.name} lies in the drawer`),
  ];
  if (lines.length + told.length === 0) return;
  const isBundled = jobs.at(-1)?.bundled === true;
  if (isBundled) told.push('It comes from somebody else, with their readings, for their printer');
  drawer.told.value = {
    kind: lines.length > 0 ? 'refused' : 'done',
    lines: [...lines, ...told],
    ...(isBundled && { deeds: takingOver(drawer) }),
  };
  if (jobs.length > 0 && lines.length === 0) drawer.isOut.value = false;
}

/** What makes the job of a bundle one's own. */
function takingOver({ bench, told, printers }: Drawer): NonNullable<Told['deeds']> {
  const own = (what: string, how: (job: JobFile) => Promise<JobFile>) => async () => {
    const job = await how(bench.job.peek());
    bench.change(what, () => job);
    told.value = null;
  };
  const fresh = own(
    'readings left out',
    async (job) => (await overtaking()).takenOver(job, { fresh: true }).file,
  );
  const there = printers.peek().filter(({ thrown }) => thrown === undefined);
  return [
    { label: 'measure my machine', do: () => void fresh() },
    ...there.slice(0, 3).map(({ profile }) => {
      const printer = { name: profile.name, profile };
      const take = own('printer', async (job) =>
        withProfile((await overtaking()).takenOver(job, { printer }).file, profile),
      );
      return { label: `for ${profile.name}`, do: () => void take() };
    }),
  ];
}

/** Needed seldom, so it comes when it is. */
const overtaking = () => import('../../src/job/takenOver.ts');

/** What a file holds; nothing where it was a model, which is taken at once. */
async function read(
  { bench, takeModel }: Drawer,
  file: File,
): Promise<{ file?: OpenedFile } | { problems: readonly Problem[] }> {
  const refuse = (code: string, value: string, allowed: string) => ({
    problems: [{ code, field: '', value, allowed }],
  });
  if (file.size > bundleLimits.allBytes)
    return refuse('file_too_large', `${Math.round(file.size / 2 ** 20)} MiB`, 'at most 512 MiB');
  let bytes: Uint8Array<ArrayBuffer>;
  try {
    bytes = new Uint8Array(await file.arrayBuffer());
  } catch {
    return refuse('file_unread', 'it could not be read', 'a file that is there and may be read');
  }
  if (/\.(stl|3mf)$/i.test(file.name)) {
    if (!takeModel) return refuse('not_taken', 'a model', 'a job, a printer profile or a bundle of Fettle');
    await takeModel(file.name, bytes);
    return {};
  }
  try {
    const opened = await bench.spine.ask('a file', (spine) => spine.openFile(bytes));
    return opened.kind === 'refused' ? { problems: opened.problems } : { file: opened };
  } catch {
    return refuse('file_unread', 'it could not be looked at', 'once more, when the reckoning goes on');
  }
}

/** The job with the profile it names, if that came along: the one of that name, or the only one. */
function withPrinter(
  job: JobFile,
  printers: readonly { readonly name: string; readonly profile: PrinterProfile }[],
): JobFile {
  if (typeof job.printer !== 'string') return job;
  const wanted = stepsOf(job.printer).at(-1);
  const found =
    printers.find(({ name }) => name === wanted) ?? (printers.length === 1 ? printers[0] : undefined);
  return found ? withProfile(job, found.profile) : job;
}
