import type { ArchiveLimits } from '../archive/zipArchive.ts';

/** What a bundle may hold: a job, what it names and what is made of it, one part a model. */
export const bundleLimits = {
  /** Sets of parts have a model and a drawing each. */
  parts: 1000,
  /** The largest donor taken, 128 MiB, with something to spare. */
  partBytes: 160 * 2 ** 20,
  allBytes: 512 * 2 ** 20,
  /** Text with numbers grows tenfold, drawings fiftyfold. */
  growth: 250,
  smallPart: 2 ** 20,
  /** Texts that are read whole: list, job and printer profile. */
  textBytes: 5 * 2 ** 20,
} as const satisfies ArchiveLimits & { readonly textBytes: number };
