import { beginsAsZip } from '../../../src/archive/zipArchive.ts';
import type { Family } from '../../../src/family/family.ts';
import { bundledJob } from '../../../src/job/bundledJob.ts';
import { bundleLimits } from '../../../src/job/bundleLimits.ts';
import { donorStandIn } from '../../../src/job/donorStandIn.ts';
import { parseJson } from '../../../src/job/parseJson.ts';
import { parsePrinter } from '../../../src/job/parsePrinter.ts';
import { Refused } from '../../../src/job/problem.ts';
import { readBundle } from '../../../src/job/readBundle.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import type { OpenedFile, RefusedJob } from '../answers.ts';
import { orRefused } from './refusals.ts';

/** What a file holds that was given to the page: a job, a printer profile, or a bundle with the job in it and what that
 *  names. Told apart by what is in it, not by its name. Problems where it is none of these, or not of the right form; the
 *  readings of a job are not looked at yet. */
export const openFile = (bytes: Uint8Array, families: readonly Family[]): OpenedFile | RefusedJob =>
  orRefused(() => (beginsAsZip(bytes) ? fromBundle(bytes, families) : fromText(bytes, families)));

function fromBundle(bytes: Uint8Array, families: readonly Family[]): OpenedFile {
  const bundle = readBundle(bytes);
  const { file, job } = bundledJob(bundle, families);
  // The profile beside the job goes into it: the page has no folder in which a name would find it.
  const whole = typeof file.printer === 'string' && job.printer ? { ...file, printer: job.printer } : file;
  const { donor } = bundle;
  return {
    kind: 'job',
    job: whole,
    bundled: true,
    ...(donor && { model: { name: donor.path, bytes: donor.bytes } }),
  };
}

function fromText(bytes: Uint8Array, families: readonly Family[]): OpenedFile {
  const value = jsonOf(bytes);
  const isPrinter = typeof value === 'object' && value !== null && 'fettlePrinter' in value;
  if (isPrinter) return { kind: 'printer', profile: parsePrinter(value) };
  parseJob(value, [...families, donorStandIn]);
  return { kind: 'job', job: value as JobFile, bundled: false };
}

function jsonOf(bytes: Uint8Array): unknown {
  const allowed = 'a job, a printer profile or a bundle of Fettle';
  const refuse = (code: string, value: string) => new Refused([{ code, field: '', value, allowed }]);
  if (bytes.length === 0) throw refuse('file_empty', 'an empty file');
  if (bytes.length > bundleLimits.textBytes)
    throw refuse('file_too_large', `${(bytes.length / 2 ** 20).toFixed(1)} MiB of text`);
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw refuse('not_utf8', 'not text');
  }
  const parsed = parseJson(text, '');
  if (!('json' in parsed)) throw new Refused([{ ...parsed, allowed }]);
  return parsed.json;
}
