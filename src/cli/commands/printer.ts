import { Command } from 'commander';
import type { Question, Told } from '../../job/printerQuestions.ts';

type Options = { readonly usual?: boolean } & { readonly [K in keyof Told]?: string };

/** `fettle printer new`: a profile of a printer nobody has measured yet. */
export function printerCommand(): Command {
  const whole = new Command('printer').summary('start a printer profile').description('Printer profiles');
  const fresh = new Command('new')
    .summary('write the profile of a printer that nobody has measured yet')
    .description(
      'Asks a few questions and writes a printer profile; until its coupon is measured the rest is as doubtful as printers differ',
    )
    .argument('<profile>', 'file to write, such as my.printer.json; never overwritten')
    .option('--name <text>', 'what you call the printer')
    .option('--bed <sides>', 'largest part it takes, such as "220 x 220 x 250"')
    .option('--line-width <mm>', 'width of an extruded line')
    .option('--layer <mm>', 'layer height')
    .option('--first-layer <mm>', 'height of the first layer')
    .option('--material <name>', 'filament the profile is for')
    .option('--usual', 'ask nothing: what no option says is as usual')
    .action(async (path: string, { usual = false, ...given }: Options) => {
      const { defaultPrinter } = await import('../../printer/defaultPrinter.ts');
      const { askLines } = await import('../measure/askLines.ts');
      const { askPrinter } = await import('../printer/askPrinter.ts');
      const { looksOf } = await import('../terminal.ts');
      const { profileText } = await import('../../printer/profileText.ts');
      const { mustBeFree, writeNew } = await import('../writeNew.ts');

      const told = await understood(given);
      await mustBeFree(path);
      const asker = usual
        ? { ask: async () => null, close: () => {} }
        : askLines(process.stdin, process.stdout);
      try {
        const looks = looksOf(process.stdout);
        const say = (line: string): void => void (usual || console.log(line));
        const answers = await askPrinter(told, { asker, looks, say });
        await writeNew(path, profileText({ ...defaultPrinter, ...answers }));
      } finally {
        asker.close();
      }
      console.log(`wrote ${path}`);
      console.log(`next: fettle coupon ${path} --out out    a small print that tells how it prints`);
    });
  return whole.addCommand(fresh.copyInheritedSettings(whole));
}

/** What the options say. Throws `RefusedFile` with every one that says nothing. */
async function understood(given: Partial<Record<keyof Told, string>>): Promise<Partial<Told>> {
  const { questions } = await import('../../job/printerQuestions.ts');
  const { RefusedFile } = await import('../refusedFile.ts');
  const told: Record<string, unknown> = {};
  const problems = Object.entries(given).flatMap(([key, text]) => {
    const question: Question<unknown> = questions[key as keyof Told];
    const read = question.read(text);
    if ('value' in read) {
      told[key] = read.value;
      return [];
    }
    const { reason, allowed } = read;
    return [{ code: 'option_unclear', field: question.option, value: JSON.stringify(text), allowed, reason }];
  });
  if (problems.length > 0) throw new RefusedFile('printer new', problems);
  return told as Partial<Told>;
}
