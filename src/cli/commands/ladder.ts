import { Command, InvalidArgumentError, Option } from 'commander';
import type { ToldVerdict } from '../ladder/toldVerdict.ts';
import type { Surroundings } from '../surroundings.ts';

interface LadderCommandOptions extends ToldVerdict {
  readonly out: string;
  readonly rungs?: number;
  readonly step?: number;
  readonly json?: true;
}

export const ladderCommand = ({ families }: Surroundings): Command => {
  const number = (text: string): number => {
    const value = text.trim() === '' ? Number.NaN : Number(text.replace(',', '.').replace(/\s*mm$/, ''));
    if (!Number.isFinite(value)) throw new InvalidArgumentError('allowed: a number');
    return value;
  };
  const drawing = ['rungs', 'step'];
  return new Command('ladder')
    .summary('copies of one meeting surface in steps, to find the one that feels right')
    .description(
      'Draws a numbered strip with copies of one meeting surface in steps of clearance. Print it, try the numbers on ' +
        'the machine, and say which felt right: part and printer profile learn from it',
    )
    .argument('<job>', 'job file')
    .argument(
      '<interface>',
      'a meeting surface of the part, or a group of them: socket for socket.width and socket.length',
    )
    .option('--out <folder>', 'folder for the STL and its picture; made when needed', 'out')
    .option('--rungs <count>', 'how many copies, 3 to 15 (default: 7)', number)
    .option('--step <mm>', 'clearance from one to the next (default: a third of the window)', number)
    .addOption(
      new Option('--felt <number>', 'the number that felt best').conflicts([
        ...drawing,
        'tight',
        'right',
        'loose',
      ]),
    )
    .addOption(new Option('--tight <numbers>', 'numbers that were too tight, as in 1,2').conflicts(drawing))
    .addOption(new Option('--right <numbers>', 'numbers that felt right').conflicts(drawing))
    .addOption(new Option('--loose <numbers>', 'numbers that were too loose').conflicts(drawing))
    .option('--json', 'print one JSON object')
    .addHelpText('after', '\nExit code: 0 done, 2 refused and nothing written')
    .action(async (path: string, name: string, options: LadderCommandOptions) => {
      const { hasVerdict } = await import('../ladder/toldVerdict.ts');
      const { out, rungs, step, json = false, ...told } = options;
      if (hasVerdict(told)) {
        const { judgeLadder } = await import('../ladder/judgeLadder.ts');
        await judgeLadder(path, name, { ...told, json }, await families());
        return;
      }
      const { drawLadder } = await import('../ladder/drawLadder.ts');
      await drawLadder(path, name, { out, json, rungs, step }, await families());
    });
};
