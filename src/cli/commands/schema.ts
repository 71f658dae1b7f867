import { Argument, Command } from 'commander';
import { type FormatName, formatNames } from '../../job/formats/names.ts';
import { columns } from '../terminal.ts';

const NAMES = Object.keys(formatNames) as FormatName[];

export const schemaCommand = (): Command =>
  new Command('schema')
    .summary('print the JSON Schema of a file format')
    .description('Prints the JSON Schema (draft 2020-12) of a file, or of what a command prints with --json')
    .addArgument(new Argument('[format]', 'which one').choices(NAMES))
    .option('--out <folder>', 'write FORMAT.schema.json there, for all formats where none is named')
    .addHelpText(
      'after',
      () =>
        `\nFormats:\n${columns(Object.entries(formatNames))
          .map((line) => `  ${line}`)
          .join('\n')}`,
    )
    .action(async (name: FormatName | undefined, { out }: { out?: string }, command: Command) => {
      const { jsonSchema } = await import('../../job/formats/jsonSchema.ts');
      if (out === undefined) {
        if (name === undefined)
          command.error(`error: name one of ${NAMES.join(', ')}, or a folder with --out`);
        else process.stdout.write(jsonSchema(name));
        return;
      }
      const { writeTogether } = await import('../writeTogether.ts');
      const names = name === undefined ? NAMES : [name];
      await writeTogether(
        out,
        names.map((each) => ({
          name: `${each}.schema.json`,
          bytes: new TextEncoder().encode(jsonSchema(each)),
        })),
      );
      console.log(`wrote ${names.map((each) => `${each}.schema.json`).join(', ')} to ${out}`);
    });
