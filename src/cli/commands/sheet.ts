import { Command } from 'commander';
import type { Surroundings } from '../surroundings.ts';

export const sheetCommand = ({ families }: Surroundings): Command =>
  new Command('sheet')
    .summary('write the page that says what to measure')
    .description(
      'Writes a page to print: the part drawn with every reading, which jaws go where, and room for the numbers',
    )
    .argument('<part>', 'a family, as listed by "fettle families", or a job file')
    .option('--out <path>', 'file or folder to write to (default: NAME.sheet.html in this folder)')
    .action(async (part: string, { out }: { out?: string }) => {
      const { dirname, basename, join } = await import('node:path');
      const { sheetInput } = await import('../../job/sheet.ts');
      const { sheetPage } = await import('../../output/sheet/index.ts');
      const { loadKernel } = await import('../../solid/kernel.ts');
      const { mustSpare } = await import('../mustSpare.ts');
      const { sheetPath, sheetSubject } = await import('../sheetSubject.ts');
      const { writeTogether } = await import('../writeTogether.ts');

      const { family, job, name, sources } = await sheetSubject(part, await families());
      const path = await sheetPath(out, name);
      const page = sheetPage(sheetInput(await loadKernel(), family, job));
      const [folder, file] = [dirname(path), basename(path)];
      await mustSpare(sources, folder, [file]);
      await writeTogether(folder, [{ name: file, bytes: new TextEncoder().encode(page) }]);
      console.log(`wrote ${join(folder, file)}    open it in a browser and print it at 100 %`);
    });
