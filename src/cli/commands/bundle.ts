import { Command } from 'commander';
import type { Surroundings } from '../surroundings.ts';

interface BundleOptions {
  readonly out: string;
  readonly author?: string;
  readonly licence?: string;
  readonly json?: true;
}

export const bundleCommand = ({ families }: Surroundings): Command =>
  new Command('bundle')
    .summary('pack a job with all its files, to pass on')
    .description(
      'Makes the part and packs it into one archive with drawing, report, job, printer profile and a page for whoever finds it, so that another person can make it for their own printer',
    )
    .argument('<job>', 'job file')
    .option('--out <folder>', 'folder for NAME.fettle.zip; made when needed', 'out')
    .option('--author <name>', 'who passes it on; remembered in the job, "" takes it back')
    .option(
      '--licence <terms>',
      'terms of use, an SPDX expression such as CC-BY-4.0; remembered in the job, "" for none',
    )
    .option('--json', 'print what was packed as JSON')
    .addHelpText(
      'after',
      '\nExit code: 0 packed, 3 packed but a finding fails, 2 refused and nothing written',
    )
    .action(async (path: string, { out, author, licence, json }: BundleOptions) => {
      const { makeBundle } = await import('../bundle/makeBundle.ts');
      await makeBundle(path, { out, author, licence, json: json === true }, await families());
    });
