import type { Family } from '../../../src/family/family.ts';
import { bundle } from '../../../src/job/bundle.ts';
import type { MadeKind } from '../../../src/job/madeFile.ts';
import { make } from '../../../src/job/make.ts';
import { prepare } from '../../../src/job/prepare.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import { takeAway } from '../../../src/job/takeAway.ts';
import type { Remembered } from '../../../src/remembered/remembered.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { RefusedJob } from '../answers.ts';
import { baseOf } from './baseOf.ts';
import { orRefused } from './refusals.ts';

/** What a job leaves the page as: a kind of file, or the bundle of all of them. */
export type TakenKind = MadeKind | 'bundle';

/** A file to hand to the person. */
export interface TakenFile {
  /** Without folder; as the command line calls it for a job file of this job's name. */
  readonly name: string;
  readonly type: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Id of the part, in a set, where the file is about one part alone. */
  readonly part?: string;
}

/** Kinds of file as a browser knows them: IANA media types. */
export const mediaTypes = {
  stl: 'model/stl',
  '3mf': 'model/3mf',
  drawing: 'image/svg+xml',
  report: 'text/html',
  bundle: 'application/zip',
} as const satisfies Record<TakenKind, string>;

/** The files of one kind of a job, to the byte what the command line writes. `model` is the donor that the job refits, for
 *  its bundle. */
export const taken = (
  kernel: ManifoldToplevel,
  families: readonly Family[],
  file: JobFile,
  kind: TakenKind,
  model?: Uint8Array,
  known?: Remembered,
): readonly TakenFile[] | RefusedJob =>
  orRefused(() => {
    const { job, family } = parseJob(file, families);
    const prepared = prepare(job, family);
    const made = { kernel, prepared, result: make(kernel, prepared, known), ...(known && { known }) };
    const base = baseOf(file);
    const type = mediaTypes[kind];
    if (kind === 'bundle') {
      const { name, bytes } = bundle({ ...made, base, file, ...(model && { donor: model }) });
      return [{ name, type, bytes }];
    }
    return takeAway(made, base, { kinds: [kind] }).map(({ name, bytes, part }) => ({
      ...{ name, type, bytes },
      ...(part !== undefined && { part }),
    }));
  });
