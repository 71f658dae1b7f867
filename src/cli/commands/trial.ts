import { Command, Option } from 'commander';
import { listTold } from '../listTold.ts';
import type { Surroundings } from '../surroundings.ts';
import type { TrialOptions } from '../trial/trialAction.ts';

interface TrialCommandOptions extends TrialOptions {
  readonly history?: true;
  readonly undo?: true;
}

export const trialCommand = ({ families }: Surroundings): Command => {
  const gathered = (text: string, before: readonly string[] = []): readonly string[] => [...before, text];
  const telling = ['felt', 'reworked', 'broken', 'note', 'notTried', 'again', 'last', 'date'];
  return new Command('trial')
    .summary('say how the print felt on the machine')
    .description(
      'Puts on record how each meeting surface of the print felt, and what broke. Part and printer profile learn from it: ' +
        'the next one is drawn better, and you see what changes and why. Without options it asks, one line each',
    )
    .argument('<job>', 'job file')
    .option(
      '--felt <interface=word>',
      'tight, right or loose, of a step also short or long; several between commas, groups too: socket.width=tight,bar=right',
      listTold,
    )
    .option('--reworked <interfaces>', 'filed or drilled before they were tried', listTold)
    .option('--broken <words>', 'what broke, as in "arm of the mouth"; may be given several times', gathered)
    .option('--note <words>', 'anything else worth remembering')
    .addOption(
      new Option('--not-tried', 'it never went near the machine; its readings count').conflicts(['felt']),
    )
    .addOption(new Option('--again', 'another print than the last on record').conflicts('last'))
    .option('--last', 'the last print on record, though more was said of it or the job has changed since')
    .addOption(
      new Option('--history', 'print what is on record and write nothing').conflicts([...telling, 'undo']),
    )
    .addOption(
      new Option('--undo', 'take back what was said last, while nothing rests on it').conflicts(telling),
    )
    .option('--date <date>', 'day it was tried, YYYY-MM-DD; today when absent')
    .option('--json', 'print one JSON object')
    .addHelpText(
      'after',
      `
A word once on record stays there. What was said by mistake is taken back with --undo, or outweighed by the next print.

Exit code: 0 done, 2 refused and nothing written`,
    )
    .action(async (path: string, { history, undo, ...options }: TrialCommandOptions) => {
      const json = options.json === true;
      if (history) {
        const { trialHistory } = await import('../trial/trialHistory.ts');
        await trialHistory(path, { json }, await families());
      } else if (undo) {
        const { undoTrial } = await import('../trial/undoTrial.ts');
        await undoTrial(path, { json }, await families());
      } else {
        const { trialAction } = await import('../trial/trialAction.ts');
        await trialAction(path, options, await families());
      }
    });
};
