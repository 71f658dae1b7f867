import { getSystemErrorMap } from 'node:util';
import type { Problem } from '../job/problem.ts';

/** Whether an error comes from the operating system: full disk, missing folder, no permission. */
export const isSystemError = (error: unknown): error is NodeJS.ErrnoException =>
  error instanceof Error && typeof (error as NodeJS.ErrnoException).errno === 'number';

/** What the operating system said, as a problem with `field`. Any other error is thrown on.
 *  @example systemProblem(error, 'printer', 'a file beside the job') // => { value: 'no such file or directory', ... } */
export function systemProblem(error: unknown, field: string, allowed: string): Problem {
  if (!isSystemError(error)) throw error;
  const said = getSystemErrorMap().get(error.errno!)?.[1] ?? error.code ?? 'cannot be used';
  return { code: 'system_refused', field, value: said, allowed };
}
