import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout } from 'node:timers/promises';
import type { Scene } from './scenes.ts';
import { start, stepsIn, type Tampering } from './tampered.ts';

/** How a run ended. */
export interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
  readonly ms: number;
}

interface Watch {
  /** Lines to type in place of the scene's own. */
  readonly lines?: readonly string[];
  /** Kill it after so many ms; with `steps`, once it has done as many steps on the disk. */
  readonly kill?: { readonly ms: number; readonly steps?: number; readonly signal: NodeJS.Signals };
  /** Hears how many lines were taken, each time it asks for another. */
  readonly asked?: (taken: number) => void;
}

/** Runs the command of a scene in `folder` to its end, typing each line when it is asked for. */
export async function run(
  { args, typed }: Pick<Scene, 'args' | 'typed'>,
  folder: string,
  tampering: Tampering,
  { lines = typed?.lines ?? [], kill, asked }: Watch = {},
): Promise<Ended> {
  const from = performance.now();
  const child = start(args, folder, tampering);
  const said = { stdout: '', stderr: '' };
  const late = new AbortController();
  if (kill) void killLater(child, kill, tampering.log, late.signal);
  let sent = 0;
  child.stdin!.on('error', () => {});
  child.stdout!.setEncoding('utf8').on('data', (text: string) => {
    said.stdout += text;
    if (typed === undefined) return;
    const prompts = said.stdout.match(/ of \d+ > /g)?.length ?? 0;
    if (prompts <= sent) return;
    asked?.(sent);
    child.stdin!.write(`${lines[sent] ?? 'quit'}\n`);
    sent++;
  });
  child.stderr!.setEncoding('utf8').on('data', (text: string) => {
    said.stderr += text;
  });
  if (typed === undefined) child.stdin!.end();
  const [code, signal] = (await once(child, 'close')) as [number | null, NodeJS.Signals | null];
  late.abort();
  return { code, signal, ...said, ms: performance.now() - from };
}

/** Kills from outside, wherever the process is just then. */
async function killLater(
  child: ChildProcess,
  { ms, steps = 0, signal }: NonNullable<Watch['kill']>,
  log: string | undefined,
  over: AbortSignal,
): Promise<void> {
  while (!over.aborted && log !== undefined && stepsIn(log).length < steps) await setTimeout(1);
  await setTimeout(ms);
  if (!over.aborted) child.kill(signal);
}

/** How many lines a run has said to be taken: each is said once more, understood. */
export const acknowledged = ({ stdout }: Pick<Ended, 'stdout'>): number =>
  stdout.match(/^ {6}= /gm)?.length ?? 0;
