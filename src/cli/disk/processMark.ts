import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';

/** What tells a process from every other, also from one that has its number later. */
export interface ProcessMark {
  /** Eight hexadecimal digits of the machine's name. */
  readonly host: string;
  readonly pid: number;
  /** When it began, in ticks of the machine; 0 where the system does not say. */
  readonly start: string;
}

/** State and start of a process as Linux tells them; undefined elsewhere, and of one that is no more. The name of the program
 *  stands between brackets and may hold anything, so fields are counted from the last bracket: proc(5), 3 is the state,
 *  22 the start. */
function told(pid: number): { readonly state: string; readonly start: string } | undefined {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, 'latin1');
    const fields = text.slice(text.lastIndexOf(')') + 2).split(' ');
    return { state: fields[0]!, start: fields[19]! };
  } catch {
    return undefined;
  }
}

/** This process. */
export const thisProcess: ProcessMark = {
  host: createHash('sha256').update(hostname()).digest('hex').slice(0, 8),
  pid: process.pid,
  start: told(process.pid)?.start ?? '0',
};

/** Whether a process is still there; `unsure` where another machine would have to say, or where the system does not tell whether it is
 *  not another one with the same number. */
export function fateOf({ host, pid, start }: ProcessMark): 'alive' | 'gone' | 'unsure' {
  if (host !== thisProcess.host) return 'unsure';
  try {
    process.kill(pid, 0);
  } catch (error) {
    // Any other refusal comes from a process that is there and somebody else's.
    if ((error as NodeJS.ErrnoException).code === 'ESRCH') return 'gone';
  }
  const now = told(pid);
  if (now === undefined || start === '0') return 'unsure';
  const ended = now.state === 'Z' || now.state === 'X';
  return ended || now.start !== start ? 'gone' : 'alive';
}
