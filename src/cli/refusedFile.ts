import { type Problem, Refused } from '../job/problem.ts';

/** Refused, with the file or folder that all its problems are about. */
export class RefusedFile extends Refused {
  /** As given on the command line. */
  readonly file: string;

  constructor(file: string, problems: readonly Problem[]) {
    super(problems);
    this.file = file;
  }
}

/** Runs `work` and names `file` as the culprit of whatever it refuses. */
export function blaming<T>(file: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw error instanceof Refused && !(error instanceof RefusedFile)
      ? new RefusedFile(file, error.problems)
      : error;
  }
}

/** A file is not what it was when this command read it: somebody else has written there meanwhile, and what they wrote stays. */
export class ChangedMeanwhile extends RefusedFile {
  constructor(file: string) {
    const allowed = 'the file as it was when this began; nothing was written, so run it again';
    super(file, [{ code: 'changed_meanwhile', field: '', value: 'was changed meanwhile', allowed }]);
  }
}
