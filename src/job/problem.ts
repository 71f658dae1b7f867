/** One thing wrong with what was given. The sentence is made at the edge. */
export interface Problem {
  /** Stable code, words joined by underscores: `reading_out_of_range`. */
  readonly code: string;
  /** `readings.barDiameter[0]`; empty for the whole file. */
  readonly field: string;
  /** What was given, shortened; empty when it is missing. */
  readonly value: string;
  /** What is allowed, as the end of the sentence "allowed: ...". */
  readonly allowed: string;
  /** Why, when the allowed values do not say it. */
  readonly reason?: string;
}

/** A refused job, with all that is wrong with it. */
export class Refused extends Error {
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    super(problems.map((problem) => `${problem.field}: ${problem.reason ?? problem.allowed}`).join('; '));
    this.name = 'Refused';
    this.problems = problems;
  }
}

/** More of a name or value than this hides the rest of the line, characters. */
const LONGEST = 200;
const short = (text: string): string => (text.length <= LONGEST ? text : `${text.slice(0, LONGEST - 3)}...`);

/** One line for stderr: file, field, value, what is allowed. Fields and values are cut at 200 characters: both may come from
 *  a file that somebody else wrote. */
export function sentence(file: string, { field, value, allowed, reason }: Problem): string {
  const where = field === '' ? file : `${file}: ${short(field)}`;
  const what = value === '' ? '' : ` ${short(value)}`;
  const why = reason === undefined ? '' : ` ${reason};`;
  return `${where}:${what}${what || why ? ' -' : ''}${why} allowed: ${allowed}`;
}
