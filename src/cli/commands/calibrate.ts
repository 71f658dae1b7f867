import { Command } from 'commander';
import type { CalliperOptions } from '../../job/coupon/toldCallipers.ts';

interface CalibrateOptions extends CalliperOptions {
  readonly json?: true;
  readonly again?: true;
  readonly date?: string;
}

export const calibrateCommand = (): Command =>
  new Command('calibrate')
    .summary('learn from the readings of a coupon how a printer prints')
    .description(
      'Fits the profile of a printer to what the callipers say of its coupon, shows what it found and how sure it is, and ' +
        'writes the profile. Without a file of readings it asks for them one by one and saves each at once, so stop ' +
        'whenever you like and go on later',
    )
    .argument('<printer>', 'printer profile; written over')
    .argument('[readings]', 'CSV or JSON of readings by feature')
    .option('--callipers <name>', 'what you call the callipers; the same name in a job means the same pair')
    .option('--resolution <length>', 'smallest step of their scale')
    .option('--zero <length>', 'what the closed jaws show')
    .option('--land-width <length>', 'width of the flat on the inside jaws')
    .option('--permissible-error <length>', 'half-width of their error; DIN 862 when absent')
    .option('--unit <unit>', 'mm or in: unit of numbers without one')
    .option('--date <date>', 'day the coupon was printed, YYYY-MM-DD; today when absent')
    .option('--again', 'begin the questions anew for a new coupon')
    .option('--json', 'print the result as one JSON object')
    .addHelpText(
      'after',
      `
Readings, one row a feature by its id or number, one cell a reading:
  feature,reading
  bore.3,4.79,4.80

Exit code: 0 calibrated, 2 refused and nothing written`,
    )
    .action(async (path: string, file: string | undefined, options: CalibrateOptions) => {
      const { calibrateAction } = await import('../calibrate/calibrateAction.ts');
      await calibrateAction(path, file, options);
    });
