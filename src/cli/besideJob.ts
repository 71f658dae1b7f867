import { dirname, isAbsolute, join } from 'node:path';
import type { Problem } from '../job/problem.ts';
import { RefusedFile } from './refusedFile.ts';

/** A job travels between machines, so what it names lies with it and nowhere else. */
export function besideJob(job: string, name: string, field: string, what: string): string {
  const steps = name.split(/[/\\]/);
  if (
    name === '' ||
    name.includes('\0') ||
    isAbsolute(name) ||
    /^[a-z]:/i.test(name) ||
    steps.includes('..')
  ) {
    const problem: Problem = {
      code: 'file_elsewhere',
      field,
      value: JSON.stringify(name),
      allowed: what,
    };
    throw new RefusedFile(job, [problem]);
  }
  return join(dirname(job), ...steps);
}
