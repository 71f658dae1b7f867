import type { JobFile } from '../job/schema.ts';

/** What lies beside a job and is named in it, by the name the job has for it: a printer profile as text, a model as bytes. */
export type Beside = Readonly<Record<string, string | Uint8Array>>;

/** A job that was understood as far as its form goes, as `openJob` gives it; nothing else will do. Nothing in it changes. */
export interface OpenJob {
  /** As its file has it. */
  readonly file: JobFile;
  /** Id of its family; `donor` for a refit. */
  readonly family: string;
  readonly title: string;
  readonly quantity: number;
  /** SHA-256 of all that decides what is made of it, hex. */
  readonly hash: string;
  readonly beside: Beside;
}
