import { execFileSync } from 'node:child_process';

/** Builds the command once before any test runs it, as `npm run build` does. */
export function setup(): void {
  execFileSync('npm', ['run', '--silent', 'build'], { stdio: 'inherit' });
}
