import { Command } from 'commander';
import type { Surroundings } from '../surroundings.ts';
import { columns, looksOf } from '../terminal.ts';

export const familiesCommand = ({ families }: Surroundings): Command =>
  new Command('families')
    .summary('list what can be made')
    .description('Lists the kinds of part that can be made, one line each')
    .option('--json', 'print JSON: id, title, version and summary of each')
    .action(async ({ json }: { json?: true }) => {
      const list = (await families()).map(({ id, title, version, summary }) => ({
        id,
        title,
        version,
        summary,
      }));
      if (json) {
        console.log(JSON.stringify(list, null, 2));
        return;
      }
      const { paint } = looksOf(process.stdout);
      const lines = columns(list.map(({ id, summary }) => [id, summary]));
      lines.forEach((line, k) => {
        const { id } = list[k]!;
        console.log(paint.bold(id) + line.slice(id.length));
      });
    });
