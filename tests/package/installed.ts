import { execFile } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';

export const root = fileURLToPath(new URL('../..', import.meta.url));
const run = promisify(execFile);

/** The package as somebody has it who installed it into an empty folder. */
export interface Installed {
  readonly folder: string;
  /** Of the package itself. */
  readonly at: string;
  /** False where no registry answered, so that the archive was unpacked beside what the checkout has installed. */
  readonly byNpm: boolean;
  readonly clear: () => void;
}

/** Packs the tree as it is built, and installs that. Nothing is built on the way. */
export async function installed(): Promise<Installed> {
  const folder = mkdtempSync(join(tmpdir(), 'fettle-installed-'));
  const at = join(folder, 'node_modules/fettle');
  const packed = mkdtempSync(join(tmpdir(), 'fettle-packed-'));
  try {
    await run('npm', ['pack', '--ignore-scripts', '--silent', '--pack-destination', packed], { cwd: root });
    const archive = join(packed, readdirSync(packed)[0]!);
    writeFileSync(join(folder, 'package.json'), '{ "name": "bench", "private": true }\n');
    const byNpm = await byInstall(folder, archive);
    if (!byNpm) await byHand(folder, at, archive);
    return { folder, at, byNpm, clear: () => rmSync(folder, { recursive: true, force: true }) };
  } finally {
    rmSync(packed, { recursive: true, force: true });
  }
}

async function byInstall(folder: string, archive: string): Promise<boolean> {
  try {
    const quiet = ['--ignore-scripts', '--prefer-offline', '--no-audit', '--no-fund', '--silent'];
    await run('npm', ['install', archive, ...quiet], { cwd: folder, timeout: 60_000 });
    return true;
  } catch (error) {
    console.warn(`npm install did not get what the package needs; unpacked by hand instead (${error})`);
    return false;
  }
}

async function byHand(folder: string, at: string, archive: string): Promise<void> {
  rmSync(join(folder, 'node_modules'), { recursive: true, force: true });
  mkdirSync(join(folder, 'node_modules/.bin'), { recursive: true });
  await run('tar', ['xzf', archive, '-C', join(folder, 'node_modules')]);
  cpSync(join(folder, 'node_modules/package'), at, { recursive: true });
  rmSync(join(folder, 'node_modules/package'), { recursive: true });
  symlinkSync('../fettle/dist/bin/fettle.js', join(folder, 'node_modules/.bin/fettle'));
  for (const name of ['piscina', 'zod', '@napi-rs']) {
    const from = join(root, 'node_modules', name);
    if (existsSync(from)) symlinkSync(from, join(folder, 'node_modules', name));
  }
}

/** Runs a program in the folder; what it printed. */
export async function inFolder(folder: string, program: string, args: readonly string[]): Promise<string> {
  const { stdout } = await run(program, [...args], { cwd: folder, maxBuffer: 2 ** 26 });
  return stdout;
}
