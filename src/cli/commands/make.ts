import { Command } from 'commander';
import { exitCode } from '../exitCode.ts';
import type { Surroundings } from '../surroundings.ts';

interface MakeOptions {
  readonly out: string;
  readonly json?: true;
  readonly ascii?: boolean;
}

export const makeCommand = ({ families }: Surroundings): Command =>
  new Command('make')
    .summary('make the STL and say whether it will fit')
    .description(
      'Draws the part for your printer, checks it against the machine around it, and writes the STL and the result',
    )
    .argument('<job>', 'job file')
    .option('--out <folder>', 'folder for the STL and the result; made when needed', 'out')
    .option('--json', 'print the result as one JSON object')
    .option('--ascii', 'write the STL as text')
    .addHelpText('after', '\nExit code: 0 made, 3 made but a finding fails, 2 refused and nothing written')
    .action(async (path: string, { out, json, ascii = false }: MakeOptions) => {
      const { baseName } = await import('../fileNames.ts');
      const { makeJob } = await import('../makeJob.ts');
      const { writeMade } = await import('../writeMade.ts');

      const made = await makeJob(path, await families());
      const { result, sources } = made;
      const base = baseName(path, result.job.family);
      const { text, paths } = await writeMade(made, { base, out, sources, ascii });
      if (json) process.stdout.write(text);
      else (await import('../printVerdict.ts')).printVerdict(result, paths);
      process.exitCode = result.findings.some(({ verdict }) => verdict === 'fails')
        ? exitCode.failed
        : exitCode.done;
    });
