import { Command, CommanderError } from 'commander';
import { Refused, sentence } from '../job/problem.ts';
import { FETTLE_VERSION } from '../job/version.ts';
import { bundleCommand } from './commands/bundle.ts';
import { calibrateCommand } from './commands/calibrate.ts';
import { checkCommand } from './commands/check.ts';
import { couponCommand } from './commands/coupon.ts';
import { donorCommand } from './commands/donor.ts';
import { familiesCommand } from './commands/families.ts';
import { inspectCommand } from './commands/inspect.ts';
import { ladderCommand } from './commands/ladder.ts';
import { makeCommand } from './commands/make.ts';
import { measureCommand } from './commands/measure.ts';
import { newCommand } from './commands/new.ts';
import { openCommand } from './commands/open.ts';
import { plateCommand } from './commands/plate.ts';
import { printerCommand } from './commands/printer.ts';
import { refitCommand } from './commands/refit.ts';
import { schemaCommand } from './commands/schema.ts';
import { screwCommand } from './commands/screw.ts';
import { sheetCommand } from './commands/sheet.ts';
import { trialCommand } from './commands/trial.ts';
import { exitCode } from './exitCode.ts';
import { faultText, internalProblem } from './internalProblem.ts';
import { oneLine } from './oneLine.ts';
import { RefusedFile } from './refusedFile.ts';
import type { Surroundings } from './surroundings.ts';
import { systemProblem } from './systemProblem.ts';

/** Runs the command line and leaves the exit code with the process; never throws.
 *  Commands load what they need when they run, so that the list of them and the version come at once. */
export async function run(argv: readonly string[], surroundings: Surroundings): Promise<void> {
  process.stdout.on('error', (error) => leave('standard output', error));
  process.stderr.on('error', (error) => leave('standard error', error));
  try {
    await program(surroundings).parseAsync(argv);
  } catch (error) {
    process.exitCode = report(error);
  }
}

function program(surroundings: Surroundings): Command {
  const whole = new Command('fettle')
    .description('Turns calliper readings into a spare part that fits')
    .version(FETTLE_VERSION, '-v, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .addHelpText(
      'after',
      `
From bench to bed:
  fettle families                              what can be made
  fettle sheet stabiliser-clip                 what to measure, a page to print
  fettle new stabiliser-clip my.job.json       start a job
  fettle measure my.job.json                   type what the callipers show
  fettle make my.job.json --out out            STL, and whether it will fit
  fettle inspect my.job.json                   read the print before it goes near the machine
  fettle trial my.job.json                     how it felt; the next one is drawn better

Once for each printer and filament:
  fettle printer new my.printer.json           a profile from a few questions
  fettle coupon my.printer.json --out out      a small print to measure
  fettle calibrate my.printer.json             its readings make the printer known`,
    );
  const commands = [
    familiesCommand(surroundings),
    sheetCommand(surroundings),
    newCommand(surroundings),
    measureCommand(surroundings),
    makeCommand(surroundings),
    checkCommand(surroundings),
    inspectCommand(surroundings),
    trialCommand(surroundings),
    donorCommand(),
    refitCommand(),
    ladderCommand(surroundings),
    bundleCommand(surroundings),
    openCommand(surroundings),
    plateCommand(surroundings),
    printerCommand(),
    couponCommand(),
    calibrateCommand(),
    screwCommand(),
    schemaCommand(),
  ];
  for (const command of commands) whole.addCommand(command.copyInheritedSettings(whole));
  for (const command of [whole, ...commands, ...commands.flatMap(({ commands }) => commands)])
    command.exitOverride();
  return whole;
}

/** Says what went wrong, one line a problem, and gives the exit code. */
function report(error: unknown): number {
  if (error instanceof CommanderError) {
    // Commander has said it already; help and version come this way too, with 0.
    return error.exitCode === 0 ? exitCode.done : exitCode.refused;
  }
  if (error instanceof Refused) {
    const file = error instanceof RefusedFile ? error.file : 'fettle';
    for (const problem of error.problems.slice(0, MOST_LINES)) complain(sentence(file, problem));
    const more = error.problems.length - MOST_LINES;
    if (more > 0) complain(`${file}: ${more} more like these`);
    return exitCode.refused;
  }
  if (error instanceof AggregateError) return Math.max(...error.errors.map(report));
  complain(internalProblem('fettle', faultText(error)));
  if (process.env.FETTLE_TRACE === '1') console.error(error);
  return exitCode.internal;
}

/** Lines of a refusal beyond which nobody reads on: a table of something else has a problem in each of its thousands of rows. */
const MOST_LINES = 100;

const complain = (text: string): void => console.error(oneLine(text));

/** Ends where nothing can be said any more. A reader that has seen enough, as `head` does, is no fault. */
function leave(stream: string, error: NodeJS.ErrnoException): void {
  if (error.code === 'EPIPE') process.exit(process.exitCode ?? exitCode.done);
  complain(sentence('fettle', systemProblem(error, stream, 'a place for what it says')));
  process.exit(exitCode.refused);
}
