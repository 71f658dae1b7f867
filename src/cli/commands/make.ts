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
      const report = `${base}.json`;
      const models = result.parts.map(({ id, name, mesh, print: { triangles } }) => {
        const part = name === '' ? result.job.title : `${result.job.title}, ${name}`;
        const bytes = stl(mesh, { part, unit: 'mm', hash: result.job.hash, ascii });
        return { name: id === '' ? `${base}.stl` : `${base}-${id}.stl`, bytes, triangles, id };
      });
      const names = [...models.map(({ name }) => name), report];
      await mustSpare(sources, out, names);

      const files = models.map(({ name, bytes, triangles, id }) => ({
        ...{ path: join(out, name), kind: 'stl' as const, sha256: sha256Hex(bytes), triangles },
        ...(id !== '' && { part: id }),
      }));
      const text = resultText(resultObject(result, files));
      await writeTogether(out, [...models, { name: report, bytes: new TextEncoder().encode(text) }]);
      if (json) process.stdout.write(text);
      else {
        const { printVerdict } = await import('../printVerdict.ts');
        printVerdict(
          result,
          names.map((name) => join(out, name)),
        );
      }
      process.exitCode = result.findings.some(({ verdict }) => verdict === 'fails')
        ? exitCode.failed
        : exitCode.done;
    });
