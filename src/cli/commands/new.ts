import { Command } from 'commander';
import type { Surroundings } from '../surroundings.ts';

interface NewOptions {
  readonly title?: string;
  readonly material?: string;
}

export const newCommand = ({ families }: Surroundings): Command =>
  new Command('new')
    .summary('start a job')
    .description('Writes a new job file for one part, with its readings still to be taken')
    .argument('<family>', 'kind of part, as listed by "fettle families"')
    .argument('<job>', 'file to write, such as enter-key.job.json; never overwritten')
    .option('--title <text>', 'what the job is called')
    .option('--material <name>', 'filament to print it in')
    .action(async (id: string, path: string, { title, material }: NewOptions) => {
      const { newJob } = await import('../../job/newJob.ts');
      const { parseJob } = await import('../../job/readJob.ts');
      const { findFamily } = await import('../findFamily.ts');
      const { jobText } = await import('../../job/jobText.ts');
      const { knownMaterial } = await import('../knownMaterial.ts');
      const { blaming } = await import('../refusedFile.ts');
      const { writeNew } = await import('../writeNew.ts');

      const list = await families();
      const family = findFamily(id, list);
      const told = {
        ...(title === undefined ? {} : { title }),
        ...(material === undefined ? {} : { material: knownMaterial(material) }),
      };
      const job = newJob(family, told);
      // What is written must be readable: a title may be too long.
      blaming(path, () => parseJob(job, list));
      await writeNew(path, jobText(job));
      console.log(`wrote ${path}`);
      console.log(`next: fettle sheet ${id}    what to measure, to print`);
      console.log(`      fettle measure ${path}`);
    });
