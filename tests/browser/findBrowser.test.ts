import { describe, expect, test } from 'vitest';
import { findBrowser, type Machine } from './findBrowser.ts';

/** A machine with these programs, on which nothing can be installed unless told. */
function machine(programs: readonly string[], more: Partial<Machine> = {}): Machine {
  const nothing = (what: string) => () => {
    throw new Error(`${what} was not to be had`);
  };
  return {
    platform: 'linux',
    env: { PATH: '/usr/local/bin:/usr/bin' },
    runs: (path) => programs.includes(path),
    isDebianRoot: false,
    installPackage: nothing('the package'),
    download: nothing('the download'),
    ...more,
  };
}

describe('a browser for the tests of the page', () => {
  test('the one that is named comes before what is installed', () => {
    const programs = ['/usr/bin/chromium', '/opt/mine'];
    expect(findBrowser(machine(programs, { env: { PATH: '/usr/bin', FETTLE_BROWSER: '/opt/mine' } }))).toBe(
      '/opt/mine',
    );
  });

  test('a named one that is not there is refused, not passed over', () => {
    const env = { PATH: '/usr/bin', FETTLE_BROWSER: '/opt/gone' };
    expect(() => findBrowser(machine(['/usr/bin/chromium'], { env }))).toThrow(
      /FETTLE_BROWSER names \/opt\/gone/,
    );
  });

  test.each([
    ['linux', '/usr/local/bin/microsoft-edge', {}],
    ['darwin', '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome', {}],
    ['win32', 'C:\\Programs\\Microsoft\\Edge\\Application\\msedge.exe', { ProgramFiles: 'C:\\Programs' }],
  ] as const)('an installed one on %s', (platform, program, env) => {
    const path = platform === 'linux' ? { PATH: '/usr/local/bin:/usr/bin' } : {};
    expect(findBrowser(machine([program], { platform, env: { ...env, ...path } }))).toBe(program);
  });

  test('Debian as root installs the package, and nothing is fetched besides', () => {
    const programs: string[] = [];
    const found = findBrowser(
      machine(programs, { isDebianRoot: true, installPackage: () => programs.push('/usr/bin/chromium') }),
    );
    expect(found).toBe('/usr/bin/chromium');
  });

  test("elsewhere, or where the package fails, playwright's own", () => {
    const download = () => '/home/one/playwright/chrome';
    expect(findBrowser(machine([], { download }))).toBe('/home/one/playwright/chrome');
    expect(findBrowser(machine([], { isDebianRoot: true, download }))).toBe('/home/one/playwright/chrome');
  });

  test('none at all fails, with what was tried and how to get one', () => {
    const said = (() => {
      try {
        return findBrowser(machine([], { isDebianRoot: true }));
      } catch (error) {
        return error instanceof Error ? error.message : '';
      }
    })();
    for (const part of ['the package was not to be had', 'the download was not to be had'])
      expect(said).toContain(part);
    expect(said).toContain('apt-get install chromium');
    expect(said).toContain('FETTLE_BROWSER=');
  });
});
