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
      const { join } = await import('node:path');
      const { sha256Hex } = await import('../../job/hash.ts');
      const { stl } = await import('../../output/stl.ts');
      const { baseName } = await import('../fileNames.ts');
      const { makeJob } = await import('../makeJob.ts');
      const { mustSpare } = await import('../mustSpare.ts');
      const { resultObject, resultText } = await import('../resultObject.ts');
      const { writeTogether } = await import('../writeTogether.ts');

      const { result, sources } = await makeJob(path, await families());
      const base = baseName(path, result.job.family);
      const [model, report] = [`${base}.stl`, `${base}.json`];
      await mustSpare(sources, out, [model, report]);

      const bytes = stl(result.mesh, { part: result.job.title, unit: 'mm', hash: result.job.hash, ascii });
      const object = resultObject(result, [
        { path: join(out, model), kind: 'stl', sha256: sha256Hex(bytes), triangles: result.print.triangles },
      ]);
      const text = resultText(object);
      await writeTogether(out, [
        { name: model, bytes },
        { name: report, bytes: new TextEncoder().encode(text) },
      ]);
      if (json) process.stdout.write(text);
      else
        await (await import('../printVerdict.ts')).printVerdict(result, [
          join(out, model),
          join(out, report),
        ]);
      process.exitCode = result.findings.some(({ verdict }) => verdict === 'fails')
        ? exitCode.failed
        : exitCode.done;
    });
