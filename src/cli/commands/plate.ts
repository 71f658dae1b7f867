import { Command, InvalidArgumentError } from 'commander';
import { SPACING, SPACING_ALLOWED, spacingTyped } from '../../job/plateSpacing.ts';
import type { Surroundings } from '../surroundings.ts';

interface PlateOptions {
  readonly out: string;
  readonly name?: string;
  readonly spacing?: number;
  readonly json?: true;
}

export const plateCommand = ({ families }: Surroundings): Command =>
  new Command('plate')
    .summary('lay out the parts of one job or several on the bed, to print at once')
    .description(
      'Makes the jobs, lays their parts out on the bed, each as often as its job says, and writes the plate as 3MF and as ' +
        'STL, a view of it from above, and where everything stands. All jobs are for one printer, material and layer',
    )
    .argument('<job...>', 'job files')
    .option('--out <folder>', 'folder for the files; made when needed', 'out')
    .option('--name <name>', 'what the files are called (default: as the first job)')
    .option(
      '--spacing <mm>',
      `least distance between parts, and to the edge of the bed (default: ${SPACING.normal})`,
      spacingTold,
    )
    .option('--json', 'print what was laid out as one JSON object')
    .addHelpText('after', '\nExit code: 0 made, 3 made but a finding fails, 2 refused and nothing written')
    .action(async (paths: readonly string[], { json, ...told }: PlateOptions) => {
      const { plateAction } = await import('../plate/plateAction.ts');
      process.exitCode = await plateAction(paths, { ...told, json: json ?? false }, await families());
    });

function spacingTold(text: string): number {
  const value = spacingTyped(text);
  if (value === undefined) throw new InvalidArgumentError(`allowed: ${SPACING_ALLOWED}`);
  return value;
}
