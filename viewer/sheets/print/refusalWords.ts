import type { Problem } from '../../../src/job/problem.ts';
import { problemWords } from '../../verdict/problemWords.ts';

/** A refusal in the words of the bench. */
export function refusalWords(problem: Problem): string {
  const { name, what, wanted } = problemWords(problem);
  const said = `${what}${wanted === '' ? '' : `; wanted: ${wanted}`}`;
  // What is wrong with a plate is about all that lies on it, and says so itself.
  return problem.code.startsWith('plate_') ? said : `${name}: ${said}`;
}
