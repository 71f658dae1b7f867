import type { JobFile } from '../../src/job/schema.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';

/** The job drawn for a printer, its profile written into it; `null` for a printer that nobody has measured. */
export function withProfile(job: JobFile, profile: PrinterProfile | null): JobFile {
  const { printer: _, ...rest } = job;
  // The schema's type of a profile is the same with lists that may be written to, which nobody here does.
  return profile === null ? rest : { ...rest, printer: profile as NonNullable<JobFile['printer']> };
}
