import type { Problem } from '../../job/problem.ts';
import type { ResultFile } from '../../job/resultSchema.ts';

/** What became of one job among several. */
export type Outcome = Finished | Refusal | Breakdown;

/** Its files are there. */
export interface Finished {
  readonly how: 'made' | 'kept';
  /** Job file, as given on the command line. */
  readonly path: string;
  readonly result: ResultFile;
  /** Roughly how long all copies take to print, minutes. */
  readonly minutes: number;
}

/** Nothing was written for it, because of what was given. */
export interface Refusal {
  readonly how: 'refused';
  readonly path: string;
  /** What the problems are about: the job file, or the folder for its files. */
  readonly file: string;
  readonly problems: readonly Problem[];
}

/** Nothing was written for it, through a fault of Fettle's own or of the machine it runs on. */
export interface Breakdown {
  readonly how: 'broke';
  readonly path: string;
  readonly why: string;
}

export const isFinished = (outcome: Outcome): outcome is Finished => 'result' in outcome;

/** Whether a finding of it fails. */
export const fails = ({ result }: Finished): boolean =>
  result.findings.some(({ verdict }) => verdict === 'fails');
