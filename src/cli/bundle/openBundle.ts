import { lstat, readFile, realpath } from 'node:fs/promises';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { z } from 'zod';
import { nameFault, sameName } from '../../archive/nameFault.ts';
import type { Family } from '../../family/family.ts';
import { bundledJob } from '../../job/bundledJob.ts';
import { bundleLimits } from '../../job/bundleLimits.ts';
import { sha256Hex } from '../../job/hash.ts';
import { jobText } from '../../job/jobText.ts';
import { parseJson } from '../../job/parseJson.ts';
import { Refused } from '../../job/problem.ts';
import { A_BUNDLE, type Bundle, readBundle } from '../../job/readBundle.ts';
import { takenOver } from '../../job/takenOver.ts';
import { profileText } from '../../printer/profileText.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import { makeJob } from '../makeJob.ts';
import { mustSpare } from '../mustSpare.ts';
import { openPrinter } from '../openPrinter.ts';
import { readBytes } from '../readBytes.ts';
import { blaming, RefusedFile } from '../refusedFile.ts';
import { looksOf } from '../terminal.ts';
import { writeEverywhere } from '../writeTogether.ts';
import { type Now, openText, type Stated } from './openText.ts';

interface Asked {
  readonly out: string;
  readonly printer: string | undefined;
  readonly fresh: boolean;
  readonly all: boolean;
  readonly replace: boolean;
  readonly json: boolean;
}

/** One file that comes out of a bundle. */
interface Emerging {
  /** Steps parted by `/`, in the folder asked for. */
  readonly path: string;
  readonly kind: string;
  readonly bytes: Uint8Array;
}

/** A printer profile that takes the place of the one in the bundle. */
interface OwnPrinter {
  readonly profile: PrinterProfile;
  /** By which the job finds it. */
  readonly name: string;
  /** It lies in the folder already. */
  readonly there: boolean;
}

/** Gives back the job of a bundle and what it names, all files or none, made the reader's own where they bring a printer
 *  or a machine. Throws `RefusedFile` with every problem found; nothing is written then. */
export async function openBundle(path: string, asked: Asked, families: readonly Family[]): Promise<void> {
  const { out } = asked;
  const bytes = await readBytes(path, path, {
    ...{ field: '', what: A_BUNDLE, largest: bundleLimits.allBytes },
  });
  const { bundle, bundled } = blaming(path, () => {
    const bundle = readBundle(bytes);
    return { bundle, bundled: bundledJob(bundle, families) };
  });
  const own = asked.printer === undefined ? undefined : await ownPrinter(asked.printer, out);
  const { file, without } = takenOver(bundled.file, { printer: own, fresh: asked.fresh });
  const changed = own !== undefined || without.length > 0 || asked.fresh;
  const files = emerging(bundle, asked.all, own, changed ? jobText(file) : undefined);
  mustDiffer(out, files);
  await mustSpare(
    [path, ...(asked.printer === undefined ? [] : [asked.printer])],
    out,
    files.map((each) => each.path),
  );
  if (!asked.replace) await mustBeNew(out, files);
  await writeEverywhere(files.map((each) => ({ ...placed(out, each.path), bytes: each.bytes })));

  const job = join(out, bundle.job.path);
  const now = asked.fresh ? undefined : await chanceNow(job, families);
  if (asked.json) {
    const { fettle, title, family, hash, author, licence } = bundle.manifest;
    const told = {
      ...{ bundle: { fettle, title, family, hash, author, licence }, job, without },
      files: files.map(({ path, kind, bytes }) => ({
        ...{ path: join(out, path), kind, bytes: bytes.length, sha256: sha256Hex(bytes) },
      })),
      now: now ?? null,
    };
    process.stdout.write(`${JSON.stringify(told, null, 2)}\n`);
    return;
  }
  const paths = files.map((each) => join(out, each.path));
  const lines = openText(
    {
      manifest: bundle.manifest,
      there: chanceThere(bundle),
      now,
      without,
      copied: own?.there === false,
      paths,
      job,
      out,
    },
    looksOf(process.stdout),
  );
  for (const line of lines) console.log(line);
}

/** The profile given, and the name by which a job in the folder finds it: where it lies, if that is in the folder or
 *  below, or its own name for a copy. */
async function ownPrinter(path: string, out: string): Promise<OwnPrinter> {
  const profile = await openPrinter(path);
  const folder = await realpath(out).catch(() => resolve(out));
  const inside = relative(folder, await realpath(path));
  const there = inside !== '' && !inside.split(sep).includes('..') && resolve(folder, inside) !== inside;
  const name = there ? inside.split(sep).join('/') : basename(path);
  const fault = there ? undefined : nameFault(name);
  if (fault === undefined) return { profile, name, there };
  throw new RefusedFile(path, [
    {
      code: 'printer_name_odd',
      field: '--printer',
      value: JSON.stringify(name),
      allowed: 'a plain file name that every system takes',
      reason: `is a name that ${fault}`,
    },
  ]);
}

function emerging(
  { files, job }: Bundle,
  all: boolean,
  own: OwnPrinter | undefined,
  text: string | undefined,
): readonly Emerging[] {
  const wanted = files.filter(
    ({ kind, path }) =>
      (all || kind === 'job' || kind === 'donor' || kind === 'printer') &&
      // A profile of one's own stands for the one in the bundle.
      !(kind === 'printer' && own !== undefined && (!all || sameName(path) === sameName(own.name))),
  );
  const taken = wanted.map((each) =>
    each.path === job.path && text !== undefined ? { ...each, bytes: new TextEncoder().encode(text) } : each,
  );
  if (own === undefined || own.there) return taken;
  const copy = { path: own.name, kind: 'printer', bytes: new TextEncoder().encode(profileText(own.profile)) };
  return [...taken, copy];
}

/** A profile of one's own may be called as a file of the bundle is. */
function mustDiffer(out: string, files: readonly Emerging[]): void {
  const seen = new Set<string>();
  for (const { path } of files) {
    if (!seen.has(sameName(path))) {
      seen.add(sameName(path));
      continue;
    }
    throw new RefusedFile(out, [
      {
        code: 'output_twice',
        field: '--printer',
        value: JSON.stringify(path),
        allowed: 'a profile of another name',
        reason: 'is the name of a file in the bundle too',
      },
    ]);
  }
}

/** Nothing that is there is written over unless it is the same already. */
async function mustBeNew(out: string, files: readonly Emerging[]): Promise<void> {
  const problems = await Promise.all(
    files.map(async ({ path, bytes }) => {
      const at = join(out, path);
      const found = await lstat(at).catch(() => undefined);
      if (found === undefined) return [];
      const same = found.isFile() && found.size === bytes.length && (await readFile(at)).equals(bytes);
      return same
        ? []
        : [
            {
              ...{ code: 'output_exists', field: path, value: 'exists already' },
              allowed: 'another folder for --out, or --replace',
            },
          ];
    }),
  );
  if (problems.flat().length > 0) throw new RefusedFile(out, problems.flat());
}

const placed = (out: string, path: string) => ({ folder: dirname(join(out, path)), name: basename(path) });

/** What is the chance with what the job names now; or why there is none yet. */
async function chanceNow(job: string, families: readonly Family[]): Promise<Now> {
  try {
    const { result } = await makeJob(job, families);
    const { printer, calibrated } = result.job;
    return { printer, calibrated, chance: result.chance };
  } catch (error) {
    if (error instanceof Refused) return { problems: error.problems };
    throw error;
  }
}

const stated = z.object({
  chance: z.number().min(0).max(1).nullable(),
  job: z.object({ printer: z.string().max(80), calibrated: z.string().max(10).nullable() }),
});

/** The chance that the result in the bundle states, and for which printer; undefined where it says nothing of the kind. */
function chanceThere({ files }: Bundle): Stated | undefined {
  const result = files.find(({ kind }) => kind === 'result');
  if (result === undefined) return undefined;
  const parsed = parseJson(new TextDecoder().decode(result.bytes), '');
  const read = 'json' in parsed ? stated.safeParse(parsed.json) : undefined;
  return read?.success ? { ...read.data.job, chance: read.data.chance } : undefined;
}
