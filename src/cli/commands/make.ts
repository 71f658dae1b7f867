import { Command, InvalidArgumentError } from 'commander';
import type { MadeKind } from '../../job/madeFile.ts';
import { exitCode } from '../exitCode.ts';
import type { Surroundings } from '../surroundings.ts';

interface MakeOptions {
  readonly out: string;
  readonly '3mf'?: true;
  readonly drawing?: true;
  readonly report?: true;
  readonly json?: true;
  readonly ascii?: boolean;
  readonly again?: boolean;
  readonly hands?: number;
}

const kinds = ['3mf', 'drawing', 'report'] as const satisfies readonly MadeKind[];
const MOST_HANDS = 64;

export const makeCommand = ({ families, worker }: Surroundings): Command =>
  new Command('make')
    .summary('make the STL and say whether it will fit')
    .description(
      'Draws the part for your printer, checks it against the machine around it, and writes the STL and the result. ' +
        'Of several jobs, what is made already and unchanged is kept, one that is refused does not stop the others, and a run ' +
        'that was interrupted goes on when started again',
    )
    .argument('<job...>', 'job file, or several')
    .option('--out <folder>', 'folder for the STL and the result; made when needed', 'out')
    .option('--3mf', 'write a 3MF too, with the copies laid out')
    .option('--drawing', 'write a drawing too, an SVG')
    .option('--report', 'write a report too, one HTML page')
    .option('--json', 'print the result as one JSON object; of several jobs { jobs, summary }')
    .option('--ascii', 'write the STL as text')
    .option('--again', 'of several jobs, make those too that are made already')
    .option(
      '--hands <number>',
      'of several jobs, how many to work on at once (default: one a core, at most 8)',
      handsTold,
    )
    .addHelpText(
      'after',
      `
Exit code: 0 made, 3 made but a finding fails, 2 refused and nothing written.
Of several jobs the worst counts: 70 before 2 before 3. What could be made is there even so.`,
    )
    .action(
      async (
        paths: readonly string[],
        { out, json, ascii = false, again = false, hands, ...asked }: MakeOptions,
      ) => {
        const others = kinds.filter((kind) => asked[kind]);
        if (paths.length > 1) {
          const { makeBatch } = await import('../batch/makeBatch.ts');
          const { printBatch } = await import('../batch/printBatch.ts');
          const options = { out, ascii, with: others, again, hands, worker };
          const outcomes = await makeBatch(paths, options, await families());
          process.exitCode = printBatch(outcomes, out, json ?? false);
          return;
        }
        const path = paths[0]!;
        const { baseName } = await import('../fileNames.ts');
        const { makeJob } = await import('../makeJob.ts');
        const { writeMade } = await import('../writeMade.ts');

        const made = await makeJob(path, await families());
        const { result, sources } = made;
        const base = baseName(path, result.job.family);
        const written = await writeMade(made, { base, out, sources, ascii, with: others });
        if (json) process.stdout.write(written.text);
        else (await import('../printVerdict.ts')).printVerdict(result, written.paths);
        process.exitCode = result.findings.some(({ verdict }) => verdict === 'fails')
          ? exitCode.failed
          : exitCode.done;
      },
    );

function handsTold(text: string): number {
  const value = Number(text);
  if (text.trim() !== '' && Number.isInteger(value) && value >= 1 && value <= MOST_HANDS) return value;
  throw new InvalidArgumentError(`allowed: a whole number from 1 to ${MOST_HANDS}`);
}
