import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { format } from 'node:util';
import { RefusedFile } from '../../src/cli/refusedFile.ts';
import { Refused, sentence } from '../../src/job/problem.ts';
import { mustBePlainRefusal } from './checks/plainRefusal.ts';

export type Files = Readonly<Record<string, string | Uint8Array>>;

/** A command that ran to its end in a folder of its own. */
export interface CommandRun {
  /** What it printed, both streams. */
  readonly said: string;
  readonly code: number;
  /** All files of the folder afterwards, by name. */
  readonly files: ReadonlyMap<string, Uint8Array>;
  /** Codes of what was refused; empty where nothing was. */
  readonly refused: readonly string[];
}

/** Runs what a command does in a new folder that holds `given`. What is refused must name its file, say what is allowed, and
 *  leave the folder as it was; any other error is thrown on. */
export async function commandRun(
  given: Files,
  work: (inFolder: (name: string) => string) => Promise<unknown>,
): Promise<CommandRun> {
  const folder = mkdtempSync(join(tmpdir(), 'fettle-fuzz-'));
  try {
    for (const [name, content] of Object.entries(given)) {
      mkdirSync(dirname(join(folder, name)), { recursive: true });
      writeFileSync(join(folder, name), content);
    }
    const before = filesIn(folder);
    const { said, code, error } = await listened(() => work((name) => join(folder, name)));
    const files = filesIn(folder);
    if (error === undefined) return { said, code, files, refused: [] };
    const refusals = error instanceof AggregateError ? (error.errors as unknown[]) : [error];
    const codes = refusals.flatMap((each) => {
      if (!(each instanceof Refused)) throw each;
      const file = each instanceof RefusedFile ? each.file : '';
      mustBePlainRefusal(file, each.problems, (problem) => sentence(file, problem));
      return each.problems.map((problem) => problem.code);
    });
    mustBeUntouched(before, files);
    return { said, code: 2, files, refused: codes };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function filesIn(folder: string): ReadonlyMap<string, Uint8Array> {
  const names = (readdirSync(folder, { recursive: true }) as string[]).sort();
  return new Map(
    names.flatMap((name) =>
      statSync(join(folder, name)).isFile() ? [[name, readFileSync(join(folder, name))] as const] : [],
    ),
  );
}

function mustBeUntouched(
  before: ReadonlyMap<string, Uint8Array>,
  after: ReadonlyMap<string, Uint8Array>,
): void {
  for (const [name, bytes] of after)
    if (!before.has(name) || !Buffer.from(bytes).equals(before.get(name)!))
      throw new Error(`refused, but ${name} was written`);
  for (const name of before.keys()) if (!after.has(name)) throw new Error(`refused, but ${name} is gone`);
}

/** What is printed goes nowhere while `work` runs, and the process keeps the exit code it had. */
async function listened(
  work: () => Promise<unknown>,
): Promise<{ said: string; code: number; error: unknown }> {
  const before = process.exitCode;
  process.exitCode = undefined;
  let said = '';
  const heard = (text: string): void => {
    said += text;
  };
  // A test runner has a console of its own, which does not end at the streams.
  const { log, error: complain } = console;
  console.log = console.error = (...words: unknown[]) => heard(`${format(...words)}\n`);
  const streams = [process.stdout, process.stderr] as const;
  const writes = streams.map((stream) => stream.write);
  for (const stream of streams)
    stream.write = ((text: string | Uint8Array) => {
      heard(typeof text === 'string' ? text : Buffer.from(text).toString());
      return true;
    }) as typeof stream.write;
  let error: unknown;
  try {
    await work();
  } catch (thrown) {
    error = thrown ?? new Error('nothing was thrown');
  } finally {
    Object.assign(console, { log, error: complain });
    streams.forEach((stream, k) => {
      stream.write = writes[k]!;
    });
  }
  const code = Number(process.exitCode ?? 0);
  process.exitCode = before;
  return { said, code, error };
}
