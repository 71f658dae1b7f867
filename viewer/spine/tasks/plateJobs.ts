import { type JobPlate, jobPlate, type PlateJob } from '../../../src/job/jobPlate.ts';
import { make } from '../../../src/job/make.ts';
import { plateAgreement } from '../../../src/job/plateAgreement.ts';
import { type PlateKind, plateBase, plateFiles } from '../../../src/job/plateFiles.ts';
import { PlateRefused } from '../../../src/job/plateRefused.ts';
import { prepare } from '../../../src/job/prepare.ts';
import type { Problem } from '../../../src/job/problem.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import { stepsOf } from '../../../src/job/stepsOf.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { RefusedJob } from '../answers.ts';
import type { DrawerShelf, ModelShelf } from '../modelShelf.ts';
import { baseOf } from './baseOf.ts';
import { DonorModels } from './donorModels.ts';
import { type BedFacts, bedFacts } from './plate.ts';
import { mediaTypes, type TakenFile } from './takeAway.ts';

/** A job to be printed along with others, and the models it refits: SHA-256 of their bytes, by the name it has for them. */
export interface PlateAsked {
  readonly job: JobFile;
  readonly models: Readonly<Record<string, string>>;
}

/** A plate that is refused, with the jobs to blame. */
export interface RefusedPlate extends RefusedJob {
  /** By their place in the list, from 0. */
  readonly blamed: readonly { readonly job: number; readonly problems: readonly Problem[] }[];
}

/** What the first job of a plate is called where another one differs from it. */
const FIRST = 'this job';

/** Lays jobs on one bed, as the command line lays their files in the same order. Jobs are made once: those of the last
 *  plate are kept. */
export class PlateJobs {
  readonly #kernel: () => Promise<ManifoldToplevel>;
  readonly #bench: DonorModels;
  readonly #shelf: DrawerShelf;
  #made = new Map<string, PlateJob>();
  /** The plate laid last, for whoever takes it away. */
  #last: { readonly key: string; readonly jobs: readonly PlateJob[]; readonly laid: JobPlate } | undefined;
  #models = new Map<string, DonorModels>();

  /** `bench` has the models of the first job of a plate, which lies on the bench; `shelf` those of the others. */
  constructor(kernel: () => Promise<ManifoldToplevel>, bench: DonorModels, shelf: DrawerShelf) {
    this.#kernel = kernel;
    this.#bench = bench;
    this.#shelf = shelf;
  }

  /** What lies on the bed; `spacing` mm, as is usual where there is none. */
  facts(asked: readonly PlateAsked[], spacing?: number): Promise<BedFacts | RefusedPlate> {
    return this.#laid(asked, spacing, (jobs, laid) => bedFacts(jobs, laid));
  }

  /** The plate as a file, to the byte what the command line writes for files of these jobs. */
  files(
    asked: readonly PlateAsked[],
    kind: PlateKind,
    spacing?: number,
  ): Promise<readonly TakenFile[] | RefusedPlate> {
    const type = kind === 'view' ? mediaTypes.drawing : mediaTypes[kind];
    return this.#laid(asked, spacing, (jobs, laid) =>
      plateFiles(jobs, laid, plateBase(baseOf(asked[0]!.job)), [kind]).map(({ name, bytes }) => ({
        ...{ name, bytes, type },
      })),
    );
  }

  async #laid<T>(
    asked: readonly PlateAsked[],
    spacing: number | undefined,
    of: (jobs: readonly PlateJob[], laid: JobPlate) => T,
  ): Promise<T | RefusedPlate> {
    const kernel = await this.#kernel();
    const key = JSON.stringify([asked, spacing]);
    if (this.#last?.key === key) return of(this.#last.jobs, this.#last.laid);
    const found = await this.#allMade(kernel, asked);
    if ('blamed' in found) return found;
    const [first] = found;
    const differing = found.map(({ prepared }) => plateAgreement(prepared, first!.prepared, FIRST));
    if (differing.some(({ length }) => length > 0)) return refusedFor(differing);
    try {
      const laid = jobPlate(kernel, found, spacing === undefined ? {} : { spacing });
      this.#last = { key, jobs: found, laid };
      return of(found, laid);
    } catch (error) {
      if (!(error instanceof PlateRefused)) throw error;
      return refusedFor(asked.map((_, k) => (k === error.job ? error.problems : [])));
    }
  }

  /** All jobs, one after the other. What is wrong with any of them is said of all. */
  async #allMade(
    kernel: ManifoldToplevel,
    asked: readonly PlateAsked[],
  ): Promise<readonly PlateJob[] | RefusedPlate> {
    const [before, models] = [this.#made, this.#models];
    this.#made = new Map();
    this.#models = new Map();
    const made: PlateJob[] = [];
    const problems: (readonly Problem[])[] = [];
    for (const [k, one] of asked.entries()) {
      const key = JSON.stringify(one);
      const own = k === 0 ? this.#bench : this.#modelsOf(one, models);
      const answer = before.get(key) ?? (await this.#make(kernel, one.job, own));
      problems.push('kind' in answer ? answer.problems : []);
      if ('kind' in answer) continue;
      this.#made.set(key, answer);
      made.push(answer);
    }
    return made.length === asked.length ? made : refusedFor(problems);
  }

  #make(kernel: ManifoldToplevel, file: JobFile, models: DonorModels): Promise<PlateJob | RefusedJob> {
    return models.withFamilies(file, (families): PlateJob => {
      const { job, family } = parseJob(file, families);
      const prepared = prepare(job, family);
      return { prepared, result: make(kernel, prepared) };
    });
  }

  /** Models as one job names them: two jobs may have the same name for different ones. */
  #modelsOf({ models }: PlateAsked, before: ReadonlyMap<string, DonorModels>): DonorModels {
    const key = JSON.stringify(models);
    const own =
      this.#models.get(key) ??
      before.get(key) ??
      new DonorModels(this.#bench.families, this.#kernel, shelfOf(models, this.#shelf));
    this.#models.set(key, own);
    return own;
  }
}

function shelfOf(models: PlateAsked['models'], shelf: DrawerShelf): ModelShelf {
  const hashOf = (name: string) => models[name] ?? models[stepsOf(name).join('/')];
  return {
    ...shelf,
    hash: async (name) => hashOf(name),
    bytes: async (name) => {
      const hash = hashOf(name);
      return hash === undefined ? undefined : shelf.stored(hash);
    },
  };
}

const refusedFor = (each: readonly (readonly Problem[])[]): RefusedPlate => ({
  kind: 'refused',
  problems: each.flat(),
  blamed: each.flatMap((problems, job) => (problems.length > 0 ? [{ job, problems }] : [])),
});
