import { notDetermined } from '../../printer/calibration/notDetermined.ts';
import type { CalibrationReport } from '../../printer/calibration/types.ts';
import type { CouponFeature } from '../../printer/coupon/feature.ts';
import type { Measurand } from '../../printer/measurand.ts';
import { knownFigures, parameterTold } from '../../printer/parameterTold.ts';
import { printsAs } from '../../printer/printsAs.ts';
import type { Known, Parameter, PrinterProfile } from '../../printer/types.ts';
import { formatNumber } from '../../units/index.ts';
import { columns, type Looks, wrapped } from '../terminal.ts';

/** What a calibration found, for a person at the bench, line by line: doubtful readings first, then what is known now and
 *  was taken for granted before, how sure, what is not determined, what it means for a part, what to do next. `rerun` is
 *  the command that does it again. */
export function found(
  report: CalibrationReport,
  features: readonly CouponFeature[],
  {
    printer,
    readings,
    rerun,
  }: { readonly printer: string; readonly readings: string; readonly rerun: string },
  looks: Looks,
): readonly string[] {
  return [
    title(report, features, looks),
    ...doubtfulLines(report, looks),
    ...parameterLines(report, features, looks),
    ...meaningLines(report.profile, looks),
    ...remarkLines(report, looks),
    `  wrote ${printer}`,
    ...nextLines(report, { printer, readings, rerun }, looks),
  ];
}

function title(
  { profile, residuals }: CalibrationReport,
  features: readonly CouponFeature[],
  { paint }: Looks,
): string {
  const material = profile.material === null ? '' : ` - ${profile.material}`;
  const used = residuals.filter(({ leftOut }) => !leftOut).length;
  return `${paint.bold(profile.name)}${material} - calibrated ${profile.calibrated} - ${used} of ${features.length} features, ${profile.calibration?.callipers}`;
}

function doubtfulLines({ doubtful }: CalibrationReport, { paint, width }: Looks): readonly string[] {
  return doubtful.flatMap(({ number, sentence, leftOut }) => {
    const lead = `  ${leftOut ? ' X ' : '/!\\'} ${String(number).padStart(2)}  `;
    const colour = leftOut ? paint.red : paint.yellow;
    return wrapped(sentence, width - lead.length).map(
      (line, k) => (k === 0 ? colour(lead) : ' '.repeat(lead.length)) + line,
    );
  });
}

function parameterLines(
  report: CalibrationReport,
  features: readonly CouponFeature[],
  { paint, width }: Looks,
): readonly string[] {
  const cell = (parameter: Parameter, known: Known): string =>
    knownFigures(parameter, known).join(' +- ').padStart(16);
  const rows = report.parameters.map(({ parameter, prior, determined: _, ...known }) => [
    parameterTold[parameter].what,
    cell(parameter, prior),
    cell(parameter, known),
    parameterTold[parameter].unit,
  ]);
  const notes = report.parameters.map(({ parameter, determined }) =>
    determined ? '' : notDetermined(parameter, report, features),
  );
  const [first, ...lines] = columns([
    ['found (k = 2)', 'before'.padStart(16), 'now'.padStart(16), ''],
    ...rows,
  ]);
  const across = Math.max(...lines.map(({ length }) => length));
  const noted = lines.flatMap((line, k) => {
    const beside = `  ${line.padEnd(across)}  ${notes[k]}`.trimEnd();
    return beside.length <= width ? [beside] : [`  ${line}`, `    ${notes[k]}`];
  });
  // What is reckoned with from now on stands in the profile.
  const { repeatability: value, calibration } = report.profile;
  const { dof } = calibration!;
  return [
    `  ${paint.dim(first!)}`,
    ...noted,
    `  prints scatter by ${formatNumber(value, value)} mm (one standard deviation, ${Math.round(dof)} degrees of freedom)`,
  ];
}

/** What it means for sizes that people know, with the doubt of one print (k = 2). */
function meaningLines(profile: PrinterProfile, { width }: Looks): readonly string[] {
  const size = (drawn: number, measurand: Measurand): string => {
    const { value, u } = printsAs(drawn, measurand, profile);
    return `${formatNumber(value)} +- ${formatNumber(2 * u)}`;
  };
  const direction = [1, 0, 0] as const;
  // A size and its doubt stay on one line; wrapped at the commas alone.
  const parts = [
    `bore ${size(5, { kind: 'bore', direction })},`,
    `slot ${size(5, { kind: 'slot', direction })},`,
    `post ${size(5, { kind: 'post', direction })} mm`,
  ].map((part) => part.replaceAll(' ', GLUE));
  const lead = '  so 5.00 drawn prints as  ';
  return wrapped(parts.join(' '), width - lead.length).map(
    (line, k) => (k === 0 ? lead : ' '.repeat(lead.length)) + line.replaceAll(GLUE, ' '),
  );
}

/** Stands for a blank at which no line is broken. */
const GLUE = '\u00a0';

function remarkLines({ remarks }: CalibrationReport, { paint, width }: Looks): readonly string[] {
  const lead = '  mind      ';
  return remarks.flatMap(({ sentence }) =>
    wrapped(sentence, width - lead.length).map(
      (line, k) => (k === 0 ? paint.yellow(lead) : ' '.repeat(lead.length)) + line,
    ),
  );
}

function nextLines(
  { doubtful }: CalibrationReport,
  {
    printer,
    readings,
    rerun,
  }: { readonly printer: string; readonly readings: string; readonly rerun: string },
  { width }: Looks,
): readonly string[] {
  const lead = '  next: ';
  const numbers = [...new Set(doubtful.map(({ number }) => number))].join(', ');
  const text =
    doubtful.length > 0
      ? `read ${numbers} once more, put ${doubtful.length === 1 ? 'it' : 'them'} right in ${readings}, then ${rerun}`
      : `keep ${printer} beside your jobs and name it in them: "printer": "${printer.split(/[/\\]/).at(-1)}"`;
  return wrapped(text, width - lead.length).map(
    (line, k) => (k === 0 ? lead : ' '.repeat(lead.length)) + line,
  );
}
