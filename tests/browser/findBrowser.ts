import { execFileSync } from 'node:child_process';
import { accessSync, constants, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, dirname, join } from 'node:path';
import { chromium } from 'playwright-core';

/** What a search for a browser meets: the machine it runs on, and what may be installed there. */
export interface Machine {
  readonly platform: NodeJS.Platform;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Whether a file is there and may be run. */
  readonly runs: (path: string) => boolean;
  /** Whether this is Debian and we may install packages. */
  readonly isDebianRoot: boolean;
  /** Installs the package `chromium`; throws where that fails. */
  readonly installPackage: () => void;
  /** Has playwright download its own; gives its path, throws where that fails. */
  readonly download: () => string;
}

/** Names of browsers that the tests can drive, on the path of Linux. */
const commands = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'microsoft-edge-stable',
  'microsoft-edge',
];

/** Where their installers put them elsewhere, below the folder for programs. */
const macPrograms = [
  'Google Chrome.app/Contents/MacOS/Google Chrome',
  'Chromium.app/Contents/MacOS/Chromium',
  'Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
];
const windowsPrograms = [
  'Google\\Chrome\\Application\\chrome.exe',
  'Chromium\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
];

/** Program of a browser for the tests of the page: the one that FETTLE_BROWSER names, else an installed one, else on Debian
 *  as root the package, else playwright's own download. Throws an `Error` that says how to get one where there is none: a
 *  page nobody looked at has not been tested. */
export function findBrowser(machine: Machine = thisMachine()): string {
  const { env, runs } = machine;
  const told = env.FETTLE_BROWSER;
  if (told) {
    if (runs(told)) return told;
    throw new Error(`FETTLE_BROWSER names ${told}, which is no program that runs; allowed: ${wanted}`);
  }
  const failures: string[] = [];
  const attempt = (what: string, get: () => string | undefined): string | undefined => {
    try {
      const found = get();
      if (found === undefined) failures.push(`${what}: nothing there`);
      return found;
    } catch (error) {
      failures.push(`${what}: ${error instanceof Error ? error.message.trim().split('\n')[0] : error}`);
      return undefined;
    }
  };
  const installed = () => places(machine).find(runs);
  const found =
    attempt('installed Chromium, Chrome or Edge', installed) ??
    (machine.isDebianRoot
      ? attempt('package chromium', () => {
          machine.installPackage();
          return installed();
        })
      : undefined) ??
    attempt("playwright's own download", machine.download);
  if (found !== undefined) return found;
  throw new Error(
    `No browser to test the page with. Tried:\n${failures.map((line) => `  ${line}`).join('\n')}\n` +
      `Install Chromium, Chrome or Edge (on Debian: apt-get install chromium), or name one: FETTLE_BROWSER=${wanted}`,
  );
}

const wanted = 'the path of a Chromium, Chrome or Edge';

function places({ platform, env }: Machine): readonly string[] {
  const below = (folders: readonly (string | undefined)[], names: readonly string[], separator: string) =>
    folders.flatMap((folder) => (folder ? names.map((name) => `${folder}${separator}${name}`) : []));
  if (platform === 'darwin')
    return below(['/Applications', env.HOME && `${env.HOME}/Applications`], macPrograms, '/');
  if (platform === 'win32')
    return below([env.ProgramFiles, env['ProgramFiles(x86)'], env.LOCALAPPDATA], windowsPrograms, '\\');
  const folders = (env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  // The first name that is anywhere, before the second in the first folder.
  return commands.flatMap((name) => folders.map((folder) => join(folder, name)));
}

function thisMachine(): Machine {
  return {
    ...{ platform: process.platform, env: process.env, runs },
    isDebianRoot: process.getuid?.() === 0 && isDebian(),
    installPackage() {
      console.log('no browser here; installing the package chromium for the tests of the page ...');
      const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
      const apt = (...args: readonly string[]) =>
        execFileSync('apt-get', args, { env, stdio: ['ignore', 'ignore', 'pipe'] });
      apt('update');
      apt('install', '--yes', '--no-install-recommends', 'chromium');
    },
    download() {
      const there = chromium.executablePath();
      if (!runs(there)) {
        console.log("no browser here; fetching playwright's own for the tests of the page ...");
        const home = dirname(createRequire(import.meta.url).resolve('playwright-core/package.json'));
        execFileSync(process.execPath, [join(home, 'cli.js'), 'install', '--no-shell', 'chromium'], {
          stdio: ['ignore', 'ignore', 'pipe'],
        });
      }
      return there;
    },
  };
}

function runs(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** Debian itself: Ubuntu's package of that name is an errand to another store. */
function isDebian(): boolean {
  try {
    return /^ID=["']?debian["']?$/m.test(readFileSync('/etc/os-release', 'utf8'));
  } catch {
    return false;
  }
}
