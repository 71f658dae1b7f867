import { A_PROFILE, parsePrinter } from '../job/parsePrinter.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { readJson } from './readJson.ts';
import { blaming } from './refusedFile.ts';

/** Reads a printer profile from its file, in today's format whatever version it was written in.
 *  Throws `RefusedFile` with every problem found: no such file, no JSON, foreign, of a newer version, fields missing,
 *  misspelt or out of range. */
export async function openPrinter(path: string): Promise<PrinterProfile> {
  const value = await readJson(path, path, '', A_PROFILE);
  return blaming(path, () => parsePrinter(value));
}
