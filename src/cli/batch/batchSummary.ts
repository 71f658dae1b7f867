import { fails, isFinished, type Outcome } from './outcome.ts';

/** What became of several jobs, in numbers. */
export interface BatchSummary {
  readonly jobs: number;
  readonly made: number;
  /** Made before, and unchanged since. */
  readonly kept: number;
  readonly refused: number;
  /** Ended by a fault of Fettle's own. */
  readonly broke: number;
  /** Made or kept, with a finding that fails. */
  readonly failing: number;
  /** Of all copies of all that is made or kept, g, and roughly the minutes they take to print. */
  readonly mass: number;
  readonly minutes: number;
}

/** Counts and adds up. */
export function batchSummary(outcomes: readonly Outcome[]): BatchSummary {
  const finished = outcomes.filter(isFinished);
  const ended = (how: Outcome['how']) => outcomes.filter((outcome) => outcome.how === how).length;
  return {
    jobs: outcomes.length,
    ...{ made: ended('made'), kept: ended('kept'), refused: ended('refused'), broke: ended('broke') },
    failing: finished.filter(fails).length,
    mass: finished.reduce((sum, { result: { job, print } }) => sum + job.quantity * print.mass, 0),
    minutes: finished.reduce((sum, { minutes }) => sum + minutes, 0),
  };
}
