import { Command } from 'commander';
import type { Surroundings } from '../surroundings.ts';

interface OpenOptions {
  readonly out: string;
  readonly printer?: string;
  readonly fresh?: true;
  readonly all?: true;
  readonly replace?: true;
  readonly json?: true;
}

export const openCommand = ({ families }: Surroundings): Command =>
  new Command('open')
    .summary('take the job out of a bundle')
    .description(
      'Gives back the job of a bundle with the printer profile and the model it names, to make the part anew, for your own printer if you bring its profile. Nothing is written over unless you say so',
    )
    .argument('<bundle>', 'archive as "fettle bundle" makes it: NAME.fettle.zip')
    .requiredOption('--out <folder>', 'folder to put the files in; made when needed')
    .option('--printer <profile>', 'your own printer profile, in place of the one in the bundle')
    .option('--fresh', 'leave the readings out, to measure a machine of your own')
    .option('--all', 'the files that were made too: models, drawing, report and the page for the finder')
    .option('--replace', 'write over files that are there')
    .option('--json', 'print what came out as JSON')
    .addHelpText('after', '\nExit code: 0 opened, 2 refused and nothing written')
    .action(async (path: string, { out, printer, fresh, all, replace, json }: OpenOptions) => {
      const { openBundle } = await import('../bundle/openBundle.ts');
      const asked = { out, printer, fresh: !!fresh, all: !!all, replace: !!replace, json: !!json };
      await openBundle(path, asked, await families());
    });
