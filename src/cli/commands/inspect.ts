import { Command, Option } from 'commander';
import type { InspectOptions } from '../inspect/inspectAction.ts';
import { listTold } from '../listTold.ts';
import type { Surroundings } from '../surroundings.ts';

export const inspectCommand = ({ families }: Surroundings): Command =>
  new Command('inspect')
    .summary('read the print before it goes near the machine')
    .description(
      'Asks what the callipers show of the printed part, one meeting surface after another, and says of each whether it will ' +
        'fit, can be filed or drilled until it does, or is to be printed again, and why. Every reading is saved at once in ' +
        'the job, so stop whenever you like and go on later',
    )
    .argument('<job>', 'job file')
    .option('--readings <file>', 'CSV or JSON of readings by interface, instead of asking')
    .addOption(
      new Option('--only <interface>', 'one interface or group alone, read once more').conflicts([
        'readings',
        'reworked',
      ]),
    )
    .option(
      '--reworked <interfaces>',
      'filed or drilled since they were read, as in bar,socket.width: reads them again',
      listTold,
    )
    .addOption(new Option('--again', 'another print than the one read last').conflicts(['last', 'reworked']))
    .option('--last', 'the print read last, though the job has changed since')
    .option('--date <date>', 'day the print is first spoken of, YYYY-MM-DD; today when absent')
    .option('--json', 'print the verdict as one JSON object')
    .addHelpText(
      'after',
      `
Readings, one row an interface, one cell a reading:
  interface,reading
  socket.width,3.94,3.95

Exit code: 0 nothing misses, 3 something is to be filed, drilled or printed again, 2 refused`,
    )
    .action(async (path: string, options: InspectOptions) => {
      const { inspectAction } = await import('../inspect/inspectAction.ts');
      await inspectAction(path, options, await families());
    });
