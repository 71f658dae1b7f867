import { progressBar } from '../progressBar.ts';
import { fails, isFinished, type Outcome } from './outcome.ts';

/** Shows how far a batch is, and at an interrupt says that nothing is lost. The write under way looks after its own files. */
export function watchProgress(whole: number): {
  readonly over: (outcome: Outcome) => void;
  readonly stop: () => void;
} {
  const bar = progressBar({ what: 'making', whole, behind: '{value} of {total}{told}' });
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  const interrupted = (signal: NodeJS.Signals): void => {
    bar.stop();
    process.stderr.write('stopped; what is made stays, and the same command goes on from here\n');
    process.kill(process.pid, signal);
  };
  for (const signal of signals) process.once(signal, interrupted);

  const count = { over: 0, refused: 0, fail: 0 };
  return {
    over: (outcome) => {
      count.over++;
      if (!isFinished(outcome)) count.refused++;
      else if (fails(outcome)) count.fail++;
      const told = (['refused', 'fail'] as const).filter((what) => count[what] > 0);
      bar.update(count.over, told.map((what) => `, ${count[what]} ${what}`).join(''));
    },
    stop: () => {
      for (const signal of signals) process.off(signal, interrupted);
      bar.stop();
    },
  };
}
