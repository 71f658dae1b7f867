import { randomBytes } from 'node:crypto';
import { closeSync, linkSync, openSync, readFileSync, statSync, unlinkSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { isSystemError } from '../systemProblem.ts';
import { fateOf, type ProcessMark, thisProcess } from './processMark.ts';
import { claimName, LOCK } from './traces.ts';

/** How old a lock must be, ms, to be nobody's where its process cannot be asked after: holding one takes a second at most. */
const LOST = 60_000;
/** The same for one in which nothing stands yet: it is made and written in one go. */
const UNWRITTEN = 2_000;

/** Takes the lock of a folder, or says who has it: a number of a process, or undefined where nobody knows. One that a killed
 *  process left is taken away. Throws what the system says. */
export function takeLock(folder: string): 'taken' | { readonly by: number | undefined } {
  const path = join(folder, LOCK);
  for (;;) {
    try {
      const file = openSync(path, 'wx');
      try {
        writeSync(file, `${JSON.stringify({ ...thisProcess, once: randomBytes(4).toString('hex') })}\n`);
      } catch (error) {
        unlinkSync(path);
        throw error;
      } finally {
        closeSync(file);
      }
      return 'taken';
    } catch (error) {
      if (codeOf(error) !== 'EEXIST') throw error;
    }
    const holder = holderOf(path);
    if (holder === 'none') continue;
    if (!holder.dead || !broken(folder, path, holder)) return { by: holder.by?.pid };
  }
}

/** Gives the lock of a folder back; one that is gone, with its folder for instance, needs no giving back. */
export function giveBack(folder: string): void {
  try {
    unlinkSync(join(folder, LOCK));
  } catch (error) {
    if (codeOf(error) !== 'ENOENT') throw error;
  }
}

interface Holder {
  readonly by: ProcessMark | undefined;
  readonly dead: boolean;
  readonly ino: bigint;
  readonly mtimeMs: bigint;
}

function holderOf(path: string): Holder | 'none' {
  try {
    const { ino, mtimeMs } = statSync(path, { bigint: true });
    const by = markIn(readFileSync(path, 'utf8'));
    const age = Date.now() - Number(mtimeMs);
    const fate = by && fateOf(by);
    const dead = fate === undefined ? age > UNWRITTEN : fate === 'gone' || (fate === 'unsure' && age > LOST);
    return { by, dead, ino, mtimeMs };
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return 'none';
    throw error;
  }
}

function markIn(text: string): ProcessMark | undefined {
  try {
    const { host, pid, start } = JSON.parse(text) as Partial<ProcessMark>;
    if (typeof host === 'string' && Number.isInteger(pid) && pid! > 0 && typeof start === 'string')
      return { host, pid: pid!, start };
  } catch {
    // Not written yet, or not by us.
  }
  return undefined;
}

/** Takes a dead lock away. Several may want to, and one of them could be late and meet the lock that another has taken since: so
 *  the dead one is first given a second name, made of what it is, which one process alone can do, and only what bears that
 *  name is taken away. Whether it is worth trying again at once. */
function broken(folder: string, path: string, { ino, mtimeMs }: Holder): boolean {
  const claim = join(folder, claimName(ino, mtimeMs));
  try {
    linkSync(path, claim);
  } catch (error) {
    const code = codeOf(error);
    if (code === 'EEXIST') return forgotten(claim);
    if (code === 'ENOENT') return true;
    // Memory cards know no links, and hardly two processes at work on them.
    if (code !== 'EPERM' && code !== 'ENOTSUP' && code !== 'ENOSYS') throw error;
    unlinkSync(path);
    return true;
  }
  const found = statSync(claim, { bigint: true });
  if (found.ino === ino && found.mtimeMs === mtimeMs) unlinkSync(path);
  unlinkSync(claim);
  return true;
}

/** Takes away a second name whose maker was killed before it could; whether it is gone. */
export function forgotten(claim: string): boolean {
  try {
    if (Date.now() - statSync(claim).ctimeMs < UNWRITTEN) return false;
    unlinkSync(claim);
  } catch (error) {
    if (codeOf(error) !== 'ENOENT') throw error;
  }
  return true;
}

const codeOf = (error: unknown): string | undefined => (isSystemError(error) ? error.code : undefined);
