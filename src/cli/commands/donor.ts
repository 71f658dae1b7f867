import { Command, Option } from 'commander';
import type { LengthUnit } from '../../donor/types.ts';

interface DonorOptions {
  readonly units?: LengthUnit;
  readonly axis?: string;
  readonly job?: string;
  readonly json?: true;
}

export const unitsOption = (): Option =>
  new Option('--units <unit>', 'what the numbers of the file are, where the guess is wrong').choices([
    ...['micron', 'mm', 'cm', 'inch', 'foot', 'metre'],
  ]);

/** `fettle donor`: what a model of a similar part is, and where it can change. */
export const donorCommand = (): Command =>
  new Command('donor')
    .summary('look at a model of a similar part: units, size, where it can change')
    .description(
      'Reads a model of a similar part (STL or 3MF) and says what it is: units, size, soundness, the stretches that can become longer or shorter without a trace, round bores and posts',
    )
    .argument('<model>', 'STL or 3MF file')
    .addOption(unitsOption())
    .option('--axis <direction>', 'look for spans along this direction as well, such as 1,0,2')
    .option('--job <file>', 'write a job that refits it, with a place for each reading; never overwritten')
    .option('--json', 'print all of it as one JSON object')
    .action(async (path: string, { units, axis, job, json }: DonorOptions) => {
      const { describeDonor } = await import('../donor/describeDonor.ts');
      await describeDonor(path, { units, axis, job, json: json ?? false });
    });
