import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
export const command = join(root, 'dist/bin/fettle.js');
export const demoJob = join(root, 'parts/stabiliser-clip/demo.job.json');

interface Ended {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

interface Given {
  readonly cwd?: string;
  readonly input?: string;
  readonly env?: Readonly<Record<string, string>>;
}

/** Runs the built command to its end. */
export function fettle(
  args: readonly string[],
  { cwd = root, input = '', env = {} }: Given = {},
): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [command, ...args], { cwd, env: { ...process.env, ...env } });
    const said = { stdout: '', stderr: '' };
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      said.stdout += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      said.stderr += text;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, ...said }));
    // A command that refuses at once does not wait for what it would have been told.
    child.stdin.on('error', () => {});
    child.stdin.end(input);
  });
}

/** A new empty folder, and the way to be rid of it. */
export function workshop(): { readonly folder: string; readonly clear: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'fettle-'));
  return { folder, clear: () => rmSync(folder, { recursive: true, force: true }) };
}

/** Every file and folder below `folder`, hidden ones too, with sizes: equal before and after means nothing written. */
export const contents = (folder: string): readonly string[] =>
  (readdirSync(folder, { recursive: true }) as string[])
    .map(
      (name) =>
        `${name} ${statSync(join(folder, name)).isFile() ? statSync(join(folder, name)).size : 'folder'}`,
    )
    .sort();
