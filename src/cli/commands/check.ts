import { Command } from 'commander';
import { exitCode } from '../exitCode.ts';
import type { Surroundings } from '../surroundings.ts';

export const checkCommand = ({ families }: Surroundings): Command =>
  new Command('check')
    .summary('say whether it will fit, write nothing')
    .description('Does all that "fettle make" does, and writes nothing')
    .argument('<job>', 'job file')
    .option('--json', 'print the result as one JSON object')
    .addHelpText('after', '\nExit code: 0 nothing fails, 3 a finding fails, 2 refused')
    .action(async (path: string, { json }: { json?: true }) => {
      const { makeJob } = await import('../makeJob.ts');
      const { result } = await makeJob(path, await families());
      if (json) {
        const { resultObject, resultText } = await import('../../job/resultObject.ts');
        process.stdout.write(resultText(resultObject(result, [])));
      } else {
        await (await import('../printVerdict.ts')).printVerdict(result, []);
      }
      process.exitCode = result.findings.some(({ verdict }) => verdict === 'fails')
        ? exitCode.failed
        : exitCode.done;
    });
