import { realpath } from 'node:fs/promises';
import { holding } from './holding.ts';
import { clearAway, hasTraces } from './leftovers.ts';

const looked = new Set<string>();

/** How long a reader waits for somebody who writes, ms. */
const PATIENCE = 2_000;

/** Brings to its end what a killed process left half done in a folder, before anything there is read; once for each folder, and only
 *  as far as this user may. A job and the profile it names are then both as they were, or both as they were to become. */
export async function settled(folder: string): Promise<void> {
  const real = await realpath(folder).catch(() => undefined);
  if (real === undefined || looked.has(real)) return;
  looked.add(real);
  if (!hasTraces(real)) return;
  // Whoever may not write there reads what there is.
  await holding([real], () => clearAway(real), PATIENCE).catch(() => {});
}
