import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { command } from '../cli/fettle.ts';

/** What is done to a run of the command, step by step as it touches the disk; see tamper.mjs. */
export interface Tampering {
  /** Folder below which steps count. */
  readonly below: string;
  /** File that the steps are written to. */
  readonly log?: string;
  /** The step, from 1. */
  readonly at?: number;
  /** What happens there: a signal, or a failure with `code`, of all steps that follow too where it is for `ever`. */
  readonly act?: NodeJS.Signals | 'fail';
  readonly code?: string;
  readonly ever?: boolean;
}

const preload = pathToFileURL(fileURLToPath(new URL('tamper.mjs', import.meta.url))).href;

/** Starts the built command in `cwd`, tampered with. */
export const start = (args: readonly string[], cwd: string, tampering: Tampering): ChildProcess =>
  spawn(process.execPath, [command, ...args], {
    cwd,
    env: {
      ...process.env,
      NODE_OPTIONS: `--import ${preload}`,
      FETTLE_TAMPER: JSON.stringify(tampering),
    },
  });

/** One step of a run on the disk. */
export interface Step {
  /** Since the process began, ms. */
  readonly ms: number;
  readonly what: string;
  readonly name: string;
}

/** The steps that were written down, in order. */
export function stepsIn(log: string): readonly Step[] {
  if (!existsSync(log)) return [];
  return readFileSync(log, 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => {
      const [, ms, what, name] = line.split(' ');
      return { ms: Number(ms), what: what!, name: name! };
    });
}
