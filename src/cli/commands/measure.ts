import { Command } from 'commander';
import type { Surroundings } from '../surroundings.ts';

interface MeasureOptions {
  readonly again?: boolean;
  readonly only?: string;
}

export const measureCommand = ({ families }: Surroundings): Command =>
  new Command('measure')
    .summary('take the readings at the bench')
    .description(
      'Asks for one reading after another; type what the callipers show, then Enter. A calliper with a data cable ' +
        'does the typing. Every reading is saved at once, so stop whenever you like and go on later',
    )
    .argument('<job>', 'job file')
    .option('--again', 'take every reading once more, beside those there are')
    .option('--only <reading>', 'one reading alone, by its name')
    .action(async (path: string, { again = false, only }: MeasureOptions) => {
      const { askLines } = await import('../measure/askLines.ts');
      const { jobStore } = await import('../measure/jobStore.ts');
      const { openReadings, onlyReading } = await import('../measure/openReadings.ts');
      const { measureSession } = await import('../measure/session.ts');
      const { summary } = await import('../measure/summary.ts');
      const { looksOf, wrapped } = await import('../terminal.ts');

      const { readings, bench } = await openReadings(path, await families());
      const chosen = only === undefined ? readings : [onlyReading(path, only, readings)];
      const asker = askLines(process.stdin, process.stdout);
      const looks = looksOf(process.stdout);
      const say = (line: string) => console.log(line);
      try {
        const taken = await measureSession(chosen, {
          // A reading asked for by name is meant to be taken, complete or not.
          again: again || only !== undefined,
          bench,
          looks,
          asker,
          store: jobStore(path),
          say,
          ring: () => void (process.stdout.isTTY && process.stdout.write('\u0007')),
        });
        const byId = new Map(taken.map((reading) => [reading.id, reading]));
        const now = readings.map((reading) => byId.get(reading.id) ?? reading);
        for (const line of summary(path, now)) for (const part of wrapped(line, looks.width)) say(part);
      } finally {
        asker.close();
      }
    });
