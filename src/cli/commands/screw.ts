import { Command } from 'commander';
import type { ScrewOptions } from '../../job/screw/readScrew.ts';

/** `fettle screw`: which screw callipers have before them. */
export const screwCommand = (): Command =>
  new Command('screw')
    .summary('say what screw it is, and what hole it needs')
    .description('Names the threads that agree with what callipers show of a screw, the likeliest first')
    .requiredOption('--diameter <length>', 'outside diameter over the crests, such as 2.84 or 0.112in')
    .option('--pitch <length>', 'from crest to crest; over one thread, unless --threads says more')
    .option('--threads <count>', 'how many threads were measured over')
    .option('--over <length>', 'their length, crest to crest, in place of --pitch')
    .option('--json', 'print one JSON object')
    .addHelpText(
      'after',
      `
Ten threads tell ten times as much as one:
  fettle screw --diameter 4.79 --threads 10 --over 7.95`,
    )
    .action(async ({ json, ...options }: ScrewOptions & { readonly json?: true }) => {
      const { readScrew } = await import('../../job/screw/readScrew.ts');
      const { blaming } = await import('../refusedFile.ts');
      const { identifyScrew } = await import('../../standards/threads/identifyScrew.ts');
      const screw = blaming('screw', () => readScrew(options));
      const identity = identifyScrew(screw);
      if (json) {
        const { screwObject } = await import('../screw/screwObject.ts');
        console.log(JSON.stringify(screwObject(screw, identity), null, 2));
        return;
      }
      const { screwLines } = await import('../screw/screwLines.ts');
      const { looksOf } = await import('../terminal.ts');
      for (const line of screwLines(screw, identity, looksOf(process.stdout))) console.log(line);
    });
