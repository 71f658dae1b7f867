import { couponOf } from '../../job/coupon/couponOf.ts';
import { type CalliperOptions, toldCallipers } from '../../job/coupon/toldCallipers.ts';
import { understandReadings } from '../../job/coupon/understandReadings.ts';
import { openPrinter } from '../openPrinter.ts';
import { readingsFile } from '../readings/readingsFile.ts';
import { blaming } from '../refusedFile.ts';
import { talkBeside } from '../talk.ts';
import { wrapped } from '../terminal.ts';
import { dayTold } from '../today.ts';
import { calibratePrinter } from './calibratePrinter.ts';
import { found } from './found.ts';

interface Options extends CalliperOptions {
  readonly json?: true;
  readonly again?: true;
  readonly date?: string;
}

/** `fettle calibrate`: from readings, out of a file or from the bench, to a profile. Throws `RefusedFile`. */
export async function calibrateAction(
  path: string,
  file: string | undefined,
  options: Options,
): Promise<void> {
  const date = dayTold(options.date);
  const profile = await openPrinter(path);
  const { features } = blaming(path, () => couponOf(profile));
  // The object alone goes to standard output when it is asked for.
  const { output, looks, say: out } = talkBeside(options.json);
  const say = (text: string) => {
    for (const line of wrapped(text, looks.width)) out(line);
  };

  let source = file;
  if (source === undefined) {
    // Questions are loaded when they are asked.
    const { takeReadings } = await import('./takeReadings.ts');
    const taken = await takeReadings(path, features, {
      options,
      again: options.again === true,
      output,
      looks,
      say: out,
    });
    if (taken.missing.length > 0) {
      const numbers = runs(taken.missing.map(({ number }) => number));
      say('');
      const none = taken.missing.length === features.length;
      say(`still to be read: ${numbers}${none ? '' : `; what there is, is saved in ${taken.path}`}`);
      say(`next: fettle calibrate ${path}`);
      if (!none) say(`or, to do without them: fettle calibrate ${path} ${taken.path}`);
      return;
    }
    source = taken.path;
    out('');
  }
  const raw = await readingsFile(source);
  const { callipers, unit } = blaming(source, () => toldCallipers(options, raw));
  const readings = blaming(source, () => understandReadings(raw, features, callipers, unit));
  const report = await calibratePrinter(path, profile, features, { readings, callipers, date, file: source });
  if (options.json) {
    process.stdout.write(`${JSON.stringify(report, null, 2)}\n`);
    return;
  }
  const rerun = `fettle calibrate ${path} ${source}`;
  for (const line of found(report, features, { printer: path, readings: source, rerun }, looks)) out(line);
}

/** Numbers with those that follow one another as "3 to 7". */
function runs(numbers: readonly number[]): string {
  const groups: number[][] = [];
  for (const number of numbers) {
    const last = groups.at(-1);
    if (last !== undefined && last.at(-1) === number - 1) last.push(number);
    else groups.push([number]);
  }
  return groups
    .map((group) => (group.length > 2 ? `${group[0]} to ${group.at(-1)}` : group.join(', ')))
    .join(', ');
}
