import { nameFault, sameName } from '../archive/nameFault.ts';
import { type BundledFile, type BundledKind, bundleFile, namesOf, readme } from '../output/bundle/index.ts';
import { profileText } from '../printer/profileText.ts';
import { sha256Hex } from './hash.ts';
import { jobText } from './jobText.ts';
import type { MadeFile, MadeKind } from './madeFile.ts';
import type { MadeJob } from './madeJob.ts';
import { type Problem, Refused } from './problem.ts';
import { readBundle } from './readBundle.ts';
import { resultObject, resultText } from './resultObject.ts';
import type { JobFile } from './schema.ts';
import { stepsOf } from './stepsOf.ts';
import { listed, takeAway } from './takeAway.ts';
import { FETTLE_VERSION } from './version.ts';
import { shown } from './zodProblems.ts';

/** A job that was made, and what it was made from. */
export interface BundleSource extends MadeJob {
  /** What the names of its files begin with. */
  readonly base: string;
  /** The job as its file has it, with nothing filled in. */
  readonly file: JobFile;
  /** Bytes of the model it refits. */
  readonly donor?: Uint8Array;
}

/** All that is made of a job. A plate that does not fit on the bed is no reason to pass nothing on. */
function whatGoes(source: BundleSource): { readonly taken: MadeFile[]; readonly left: readonly Problem[] } {
  const take = (...kinds: MadeKind[]) => takeAway(source, source.base, { kinds });
  const sure = take('stl', 'drawing', 'report');
  try {
    return { taken: [...sure, ...take('3mf')], left: [] };
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    return { taken: sure, left: error.problems };
  }
}

const whatIs: Readonly<Record<BundledKind, string>> = {
  readme: 'this page',
  job: 'readings, choices and sizes: the job, for Fettle',
  printer: 'the printer it was drawn for, as measured',
  donor: 'the model of a similar part it was made from',
  stl: 'the part, to print',
  '3mf': 'the same with its unit, all parts in one file',
  drawing: 'the part with its sizes, to compare a print with',
  report: 'all about the part: fit, findings, how to put it in',
  result: 'sizes, fit and findings, for programs',
};

/** Puts everything about a job into one archive that another person can make the part from, for another printer. The job in
 *  it names a printer profile and a donor beside it, and stays as typed otherwise, so that it makes the same bytes. The
 *  same source gives the same archive. Throws `Refused` where names or sizes do not go into one. */
export function bundle(source: BundleSource): {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly files: readonly BundledFile[];
  /** Why a file that could be in it is not. */
  readonly left: readonly Problem[];
} {
  const { prepared, result, base, file } = source;
  const donor = donorOf(source);
  const [job, printer] = [`${base}.job.json`, `${base}.printer.json`];
  // A donor may lie in a folder of that name.
  const folder = donor !== undefined && sameName(donor.path.split('/')[0]!) === 'made' ? 'made-here' : 'made';
  const given: BundledFile[] = [
    {
      path: job,
      kind: 'job',
      bytes: utf8(jobText(file.printer === undefined ? file : { ...file, printer })),
    },
    ...(file.printer === undefined
      ? []
      : [{ path: printer, kind: 'printer' as const, bytes: utf8(profileText(prepared.printer)) }]),
    ...(donor === undefined ? [] : [donor]),
  ];
  const { taken, left } = whatGoes(source);
  const list = resultText(
    resultObject(
      result,
      listed(taken, (name) => `${folder}/${name}`),
    ),
  );
  const made: BundledFile[] = [
    ...taken.map(({ name, kind, bytes }) => ({ path: `${folder}/${name}`, kind, bytes })),
    { path: `${folder}/${base}.json`, kind: 'result', bytes: utf8(list) },
  ];
  const name = `${base}.fettle.zip`;
  const page: BundledFile = {
    path: 'README.txt',
    kind: 'readme',
    bytes: utf8(pageOf(source, { name, job, files: [...given, ...made] })),
  };
  const files = [page, ...given, ...made];
  const { author, licence } = prepared.job;
  const about = {
    fettle: FETTLE_VERSION,
    title: result.job.title,
    family: result.job.family,
    hash: result.job.hash,
    ...(author !== undefined && { author }),
    ...(licence && { licence }),
  };
  const bytes = bundleFile(about, files, sha256Hex);
  // Nothing is passed on that could not be opened again: names and sizes meet the same limits on both sides.
  readBundle(bytes);
  return { name, bytes, files, left };
}

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

/** The donor under the name by which the job finds it. */
function donorOf({ prepared: { job }, donor }: BundleSource): BundledFile | undefined {
  if (job.donor === undefined || donor === undefined) return undefined;
  const { file } = job.donor;
  const path = stepsOf(file).join('/');
  const refuse = (allowed: string, reason: string) =>
    new Refused([{ code: 'donor_name_odd', field: 'donor.file', value: shown(file), allowed, reason }]);
  const fault = nameFault(path);
  if (fault !== undefined)
    throw refuse('a plain file name that every system takes', `is a name that ${fault}`);
  if (!namesOf.donor.pattern.test(path))
    throw refuse(namesOf.donor.words, 'does not say what kind of model it is');
  return { path, kind: 'donor', bytes: donor };
}

function pageOf(
  { prepared: { job, family, printer }, result, base }: BundleSource,
  { name, job: path, files }: { name: string; job: string; files: readonly BundledFile[] },
): string {
  const pathsOf = (kind: BundledKind) => files.filter((each) => each.kind === kind).map((each) => each.path);
  return readme({
    file: name,
    folder: base,
    version: FETTLE_VERSION,
    title: result.job.title,
    summary: family.summary,
    author: job.author,
    licence: job.licence || undefined,
    quantity: job.quantity,
    material: result.job.material,
    printer: job.printer === undefined ? null : { name: printer.name, calibrated: printer.calibrated },
    chance: result.chance,
    lay: result.print.lay,
    layer: result.print.layer,
    meets: result.interfaces.map(({ name, predicted }) => ({ name, predicted })),
    cautions: result.cautions,
    failing: result.findings
      .filter(({ verdict }) => verdict === 'fails')
      .map(({ title, because }) => `${title}: ${because}`),
    donor: pathsOf('donor')[0],
    job: path,
    models: pathsOf('stl'),
    report: pathsOf('report')[0],
    files: [
      { path: 'README.txt', what: whatIs.readme },
      ...files.map(({ path, kind }) => ({ path, what: whatIs[kind] })),
    ],
  });
}
