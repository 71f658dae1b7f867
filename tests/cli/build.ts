import { execFileSync } from 'node:child_process';

/** Builds the command once before any test runs it, as `npm run build` does. With FETTLE_BUILT=1 the build there is
 *  stands, for working on one test while another file does not compile. */
export function setup(): void {
  if (process.env.FETTLE_BUILT === '1') return;
  execFileSync('npm', ['run', '--silent', 'build'], { stdio: 'inherit' });
}
