import { type Donor, READING } from '../../../src/donor/donor.ts';
import type { LengthUnit } from '../../../src/donor/types.ts';
import type { Family } from '../../../src/family/family.ts';
import { type DonorTask, donorFamily } from '../../../src/job/donorFamily.ts';
import { donorStandIn } from '../../../src/job/donorStandIn.ts';
import { openedDonor, taskOfDonor } from '../../../src/job/donorTask.ts';
import { sha256Hex } from '../../../src/job/hash.ts';
import { Refused } from '../../../src/job/problem.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import { refusingRefit } from '../../../src/job/refusingRefit.ts';
import type { Job, JobFile } from '../../../src/job/schema.ts';
import { shown } from '../../../src/job/zodProblems.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { RefusedJob } from '../answers.ts';
import type { ModelShelf } from '../modelShelf.ts';

/** A job that refits a model, with the model. */
export interface Refit {
  readonly job: Job;
  readonly told: NonNullable<Job['donor']>;
  readonly task: DonorTask;
}

/** Models smaller than this are read before anybody could look, bytes. */
const WORTH_TELLING = 2 * 1024 * 1024;
/** Bytes of a triangle in a binary STL. */
const TRIANGLE = 50;

/** Models and families of refits kept; typing needs the last one, undo the one before. */
const KEPT = 2;

/** Families of the jobs a worker is given: those there are, and for a refit the one made of its model. A model is asked for
 *  once and kept as read. */
export class DonorModels {
  readonly families: readonly Family[];
  readonly #kernel: () => Promise<ManifoldToplevel>;
  readonly #shelf: ModelShelf;
  readonly #donors = new Map<string, Donor>();
  readonly #made = new Map<string, Family>();

  constructor(families: readonly Family[], kernel: () => Promise<ManifoldToplevel>, shelf: ModelShelf) {
    this.families = families;
    this.#kernel = kernel;
    this.#shelf = shelf;
  }

  /** Does a task about a job with the families it may be of; problems where it is refused, of its model as well. */
  async withFamilies<T>(
    file: JobFile,
    task: (families: readonly Family[]) => T | Promise<T>,
  ): Promise<T | RefusedJob> {
    const isRefit = file.family === donorStandIn.id;
    return orRefusedLater(isRefit, async () =>
      task(isRefit ? [...this.families, await this.#family(file)] : this.families),
    );
  }

  /** A job that refits a model, understood. Throws `Refused`. */
  async refit(file: JobFile): Promise<Refit> {
    const { job } = parseJob(file, [...this.families, donorStandIn]);
    const told = job.donor;
    if (told === undefined)
      throw new Refused([
        {
          code: 'donor_missing',
          field: 'donor',
          value: '',
          allowed: 'the file of a model, and what to change',
          reason: 'is missing',
        },
      ]);
    const hash = await this.#shelf.hash(told.file);
    const known = hash === undefined ? undefined : this.#donors.get(keyOf(hash, told.units));
    if (known) return { job, told, task: taskOfDonor(told, { ...known, name: told.file }, hash!, job) };
    const bytes = await this.#bytes(told.file);
    const read = this.read(told.file, bytes, told.units);
    return { job, told, task: taskOfDonor(told, read.donor, read.hash, job) };
  }

  /** Reads a model and keeps it. `field` is what is to blame where it cannot be used. Throws `Refused`. */
  read(
    name: string,
    bytes: Uint8Array,
    units: LengthUnit | undefined,
    field = 'donor.file',
  ): { readonly hash: string; readonly donor: Donor } {
    const hash = sha256Hex(bytes);
    const key = keyOf(hash, units);
    const known = this.#donors.get(key);
    if (known) return { hash, donor: { ...known, name } };
    const donor = openedDonor(bytes, name, units, this.#progress(bytes.length), field);
    this.#said();
    keep(this.#donors, key, donor);
    return { hash, donor };
  }

  /** Bytes of the model a job refits, for what is passed on; undefined for jobs that refit none. Throws `Refused`. */
  async bytesFor(file: JobFile): Promise<Uint8Array | undefined> {
    return file.donor === undefined ? undefined : this.#bytes(file.donor.file);
  }

  async #bytes(name: string): Promise<Uint8Array> {
    const bytes = await this.#shelf.bytes(name);
    if (bytes) return bytes;
    throw new Refused([
      {
        code: 'model_missing',
        field: 'donor.file',
        value: '',
        allowed: 'the file of the model, dropped on this page',
        reason: `(model ${shown(name)}) is not in this browser`,
      },
    ]);
  }

  async #family(file: JobFile): Promise<Family> {
    const kernel = await this.#kernel();
    const { job, told, task } = await this.refit(file);
    const key = JSON.stringify([task.model, told, job.unit]);
    const known = this.#made.get(key);
    if (known) return known;
    const made = donorFamily(kernel, task);
    keep(this.#made, key, made);
    return made;
  }

  /** Looks where a model can change, and says so where that takes longer than a moment. */
  lookingForStretches<T>({ mesh }: Donor, look: () => T): T {
    if (mesh.triangles.length / 3 < WORTH_TELLING / TRIANGLE) return look();
    void this.#shelf.reads(1, 'stretches');
    try {
      return look();
    } finally {
      this.#said();
    }
  }

  #said(): void {
    void this.#shelf.reads(0);
  }

  #progress(bytes: number): ((share: number) => void) | undefined {
    if (bytes < WORTH_TELLING) return undefined;
    let told = -1;
    return (share) => {
      const percent = Math.floor(100 * share);
      if (percent === told) return;
      told = percent;
      void this.#shelf.reads(share, share < READING ? undefined : 'features');
    };
  }
}

const keyOf = (hash: string, units: LengthUnit | undefined): string => `${hash} ${units ?? ''}`;

function keep<T>(map: Map<string, T>, key: string, value: T): void {
  for (const oldest of map.keys()) {
    if (map.size < KEPT) break;
    map.delete(oldest);
  }
  map.set(key, value);
}

/** The answer of a task, or the problems for which it was refused; of a refit what its donor cannot do as well. */
export async function orRefusedLater<T>(isRefit: boolean, task: () => Promise<T>): Promise<T | RefusedJob> {
  try {
    return await task();
  } catch (error) {
    const refused = isRefit ? asRefused(error) : error;
    if (refused instanceof Refused) return { kind: 'refused', problems: refused.problems };
    throw refused;
  }
}

function asRefused(error: unknown): unknown {
  try {
    return refusingRefit(() => {
      throw error;
    });
  } catch (refused) {
    return refused;
  }
}
