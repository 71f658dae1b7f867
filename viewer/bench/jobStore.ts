import type { PrinterProfile } from '../../src/printer/types.ts';
import type { History } from './jobHistory.ts';

/** A job as the list of the drawer has it. */
export interface JobLine extends Pick<History, 'now'> {
  readonly id: string;
  /** Counts up with every save, so that a tab sees when another was at it; 0 while it was never saved. */
  readonly revision: number;
  /** When it was last saved, ms since 1970; for the order of the list alone. */
  readonly saved: number;
  /** Name of the sheet it was left at. */
  readonly sheet: string;
  /** Models it was made from: SHA-256 of their bytes, by the name the job has for them. */
  readonly models: Readonly<Record<string, string>>;
  /** When it was thrown away, ms since 1970; absent: it was not. */
  readonly thrown?: number;
}

/** A job as it lies in the drawer. */
export interface StoredJob extends JobLine, History {}

/** A printer profile in the drawer. Names may be the same: one printer has a profile a material. */
export interface StoredPrinter {
  readonly id: string;
  readonly saved: number;
  readonly profile: PrinterProfile;
  readonly thrown?: number;
}

/** A model file that jobs refit, by the SHA-256 of its bytes. */
export interface StoredModel {
  readonly hash: string;
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** What is kept between visits. Everything rejects with what the browser says where it cannot be done. */
export interface JobStore {
  /** Without their pasts; the one saved last first. */
  jobs(): Promise<readonly JobLine[]>;
  job(id: string): Promise<StoredJob | undefined>;
  /** Reads, changes and writes one job with no other tab in between, and gives what lies there now, its revision one up.
   *  `change` gets undefined where there is none, and gives it back where nothing is to be written. */
  update(
    id: string,
    change: (there: StoredJob | undefined) => StoredJob | undefined,
  ): Promise<StoredJob | undefined>;
  /** Writes a job without a look at what is there, set going before it returns: for the moment the page closes. */
  overwrite(job: StoredJob): Promise<void>;
  /** Takes out of the drawer for good. */
  remove(ids: readonly string[]): Promise<void>;
  printers(): Promise<readonly StoredPrinter[]>;
  putPrinter(printer: StoredPrinter): Promise<void>;
  removePrinters(ids: readonly string[]): Promise<void>;
  model(hash: string): Promise<StoredModel | undefined>;
  putModel(model: StoredModel): Promise<void>;
}
