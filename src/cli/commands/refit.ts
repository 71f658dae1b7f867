import { Command, InvalidArgumentError } from 'commander';
import type { LengthUnit } from '../../donor/types.ts';
import type { ToldChange } from '../donor/toldChange.ts';
import { unitsOption } from './donor.ts';

interface RefitOptions {
  readonly units?: LengthUnit;
  readonly lopsided?: true;
  readonly job?: string;
  readonly material?: string;
  readonly yes?: true;
  readonly out: string;
  readonly json?: true;
  readonly ascii?: true;
}

/** `fettle refit`: a donor longer or shorter where it leaves no trace, and its bores and posts drawn for this machine. */
export function refitCommand(): Command {
  const changes: ToldChange[] = [];
  const last = (option: string): ToldChange => {
    const change = changes.at(-1);
    if (!change)
      throw new InvalidArgumentError(`${option} says what to do along the --axis before it; there is none`);
    return change;
  };
  const set = (key: 'by' | 'to' | 'take') => (value: string) => {
    last(`--${key}`)[key] = value;
    return value;
  };
  return new Command('refit')
    .summary('make a model of a similar part fit this machine')
    .description(
      'Makes a model longer or shorter where its section stays the same, leaves everything else as it is, and draws bores and posts for what was measured. Never scales',
    )
    .argument('<model>', 'STL or 3MF file')
    .option(
      '--axis <axis>',
      'x, y, z, or a direction such as 1,0,2; may be given several times, each with its own --by or --to',
      (value: string) => {
        changes.push({ axis: value });
        return value;
      },
    )
    .option('--by <length>', 'longer by this much along the axis before it; shorter with a minus', set('by'))
    .option('--to <length>', 'to this length over all along the axis before it', set('to'))
    .option('--take <number>', 'which of the ways offered, where each leaves a trace', set('take'))
    .option('--lopsided', 'a symmetric model may lose its symmetry')
    .addOption(unitsOption())
    .option('--job <file>', 'job with readings of the machine, as "fettle donor --job" writes it')
    .option('--material <name>', 'filament to print it in, without a job')
    .option('--yes', 'make what the readings ask for without asking back')
    .option('--out <folder>', 'folder for the STL and the result; made when needed', 'out')
    .option('--json', 'print the result as one JSON object')
    .option('--ascii', 'write the STL as text')
    .addHelpText('after', '\nExit code: 0 made, 3 made but a finding fails, 2 refused and nothing written')
    .action(async (path: string, options: RefitOptions) => {
      const { refitDonor } = await import('../donor/refitDonor.ts');
      await refitDonor(path, { ...options, changes });
    });
}
