import { lstatSync, readdirSync, readFileSync, renameSync, unlinkSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { forgotten } from './folderLock.ts';
import { identityOf } from './identity.ts';
import { fateOf } from './processMark.ts';
import { CLAIM, LOCK, mayBeTrace, type Trace, traceName, traceOf } from './traces.ts';
import { type PlannedFile, plannedIn } from './writingPlan.ts';

/** How old a file must be, ms, before it is nobody's where its process cannot be asked after. */
const LOST = 24 * 60 * 60 * 1000;

/** Whether anything lies in a folder that only writing leaves, a lock included; false for a folder that cannot be read. */
export function hasTraces(folder: string): boolean {
  try {
    return readdirSync(folder).some(mayBeTrace);
  } catch {
    return false;
  }
}

/** Clears up after processes that were killed while they wrote into a folder, whose lock the caller holds: what was decided is
 *  brought to its end, so that files which belong together stay together, and what was not is taken away. Nothing is touched of
 *  a process that lives, of another user, or that somebody has changed since. */
export function clearAway(folder: string): void {
  const names = readdirSync(folder).filter((name) => mayBeTrace(name) && name !== LOCK);
  for (const name of names) if (CLAIM.test(name)) forgotten(join(folder, name));
  const dead = names.flatMap((name) => traceOf(name) ?? []).filter((trace) => isNobodys(folder, trace));
  const stuck = new Set<string>();
  for (const trace of dead) if (!broughtToItsEnd(folder, trace)) stuck.add(trace.id);
  for (const { id, name } of dead) if (!stuck.has(id)) remove(join(folder, name));
}

function isNobodys(folder: string, { name, by }: Trace): boolean {
  const found = lstatSync(join(folder, name), { throwIfNoEntry: false });
  // A folder may be everybody's, such as /tmp, and what lies there somebody else's.
  if (!found?.isFile() || (process.getuid !== undefined && found.uid !== process.getuid())) return false;
  const fate = fateOf(by);
  return fate === 'gone' || (fate === 'unsure' && Date.now() - found.mtimeMs > LOST);
}

/** Where a trace leads to a plan that counts, gives every file of it its name; false where the system does not let it. */
function broughtToItsEnd(folder: string, { name, id, kind }: Trace): boolean {
  if (kind !== 'commit' && kind !== 'see') return true;
  try {
    const home =
      kind === 'commit' ? folder : resolve(folder, readFileSync(join(folder, name), 'utf8').trim());
    const commit = join(home, traceName(id, 'commit'));
    const files = plannedIn(textAt(commit) ?? '');
    if (files === undefined) return true;
    for (const file of files) {
      // A name of another folder, or of a file that is not of this writing, is no plan of ours.
      const ours = basename(file.name) === file.name && traceOf(file.part)?.id === id;
      if (ours) takeName(resolve(home, file.folder), file);
    }
    const others = new Set(files.map((file) => resolve(home, file.folder)));
    others.delete(home);
    for (const other of others) remove(join(other, traceName(id, 'see')));
    remove(commit);
    return true;
  } catch {
    return false;
  }
}

/** Gives a part its name, unless it has it already, or somebody has written there since. */
function takeName(folder: string, { part, name, was }: PlannedFile): void {
  if (identityOf(join(folder, part)) === null || identityOf(join(folder, name)) !== was) return;
  renameSync(join(folder, part), join(folder, name));
}

function textAt(path: string): string | undefined {
  return lstatSync(path, { throwIfNoEntry: false })?.isFile() ? readFileSync(path, 'utf8') : undefined;
}

/** Takes a file away; one that is gone is none to trouble about. */
export function remove(path: string): void {
  try {
    unlinkSync(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
}
