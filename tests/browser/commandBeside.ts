import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect } from 'vitest';
import { fettle, workshop } from '../cli/fettle.ts';

/** The command at work in a folder of its own, to hold the page to. */
export interface CommandBeside {
  /** Lays a file into the folder. */
  put(file: { readonly name: string; readonly bytes: Uint8Array | string }): void;
  bytesOf(name: string): Uint8Array;
  jsonOf(name: string): unknown;
  /** Runs it to its end; what it said. */
  run(...args: readonly string[]): Promise<string>;
}

/** A new folder for every test of a file, and the command in it. `ends`: exit codes it may have. */
export function commandBeside(ends: readonly number[] = [0, 3]): CommandBeside {
  let bench: ReturnType<typeof workshop>;
  beforeEach(() => {
    bench = workshop();
  });
  afterEach(() => bench.clear());
  const at = (name: string) => join(bench.folder, name);
  return {
    put: ({ name, bytes }) => writeFileSync(at(name), bytes),
    bytesOf: (name) => new Uint8Array(readFileSync(at(name))),
    jsonOf: (name) => JSON.parse(readFileSync(at(name), 'utf8')),
    async run(...args) {
      const { code, stdout, stderr } = await fettle(args, { cwd: bench.folder });
      expect(ends, stderr).toContain(code);
      return stdout;
    },
  };
}
