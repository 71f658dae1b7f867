import { formatNumber } from '../../units/index.ts';
import { columns, day, percent, sentence, wrapped } from '../words/index.ts';

/** What the page for the finder of a bundle tells. */
export interface ReadmeInput {
  /** Name of the bundle's file, and of the folder to open it in. */
  readonly file: string;
  readonly folder: string;
  readonly version: string;
  readonly title: string;
  /** What such a part is for. */
  readonly summary: string;
  readonly author: string | undefined;
  readonly licence: string | undefined;
  readonly quantity: number;
  readonly material: string;
  /** Null for a printer that nobody had measured. */
  readonly printer: { readonly name: string; readonly calibrated: string | null } | null;
  readonly chance: number | null;
  readonly lay: string;
  readonly layer: number;
  readonly meets: readonly { readonly name: string; readonly predicted: number }[];
  readonly cautions: readonly string[];
  /** What a check found wrong, a sentence each. */
  readonly failing: readonly string[];
  /** The model the part was made from, if there was one. */
  readonly donor: string | undefined;
  readonly job: string;
  readonly files: readonly { readonly path: string; readonly what: string }[];
  /** The models, as paths in the bundle, and the page that tells all, if it is there. */
  readonly models: readonly string[];
  readonly report: string | undefined;
}

const WIDTH = 76;

/** The page for whoever finds a bundle and knows nothing of it, as plain text: what it is, how to print the part without
 *  Fettle and what that may cost, how to make it anew with it. Lines end with a line feed.
 *  Texts that people wrote stay one line each, whatever is in them. */
export function readme(input: ReadmeInput): string {
  const sections = [
    heading(input),
    aboutLines(input),
    mindLines(input),
    withoutFettle(input),
    withFettle(input),
    contents(input),
    [
      ...wrapped(
        'Nothing here is certified, by nobody. The part it stands in for cannot be bought again, nor can the machine: try it gently, and stop where it resists.',
        WIDTH,
      ),
    ],
  ];
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

function heading({ title }: ReadmeInput): readonly string[] {
  const lines = wrapped(plain(title), WIDTH);
  return [...lines, '='.repeat(Math.max(...lines.map((line) => line.length)))];
}

function aboutLines({ summary, quantity, author, licence, version }: ReadmeInput): readonly string[] {
  const by = author === undefined ? '' : ` Put together by ${plain(author)}.`;
  return [
    ...wrapped(
      `A spare part for an old machine: ${plain(summary)}; ${quantity} off.${by} Drawn by Fettle ${version} from what callipers read on one machine, for one printer.`,
      WIDTH,
    ),
    '',
    ...wrapped(
      licence === undefined
        ? 'Licence: none is stated. Ask whoever made it before you pass it on.'
        : `Licence: ${licence}, as the SPDX licence list has it.`,
      WIDTH,
    ),
  ];
}

function mindLines({ cautions, failing }: ReadmeInput): readonly string[] {
  if (cautions.length + failing.length === 0) return ['MIND', '  The usual care with old machines.'];
  return [
    'MIND',
    ...failing.flatMap((text) => item('X', `Found wrong: ${plain(text)}`)),
    ...cautions.flatMap((text) => item('-', plain(text))),
  ];
}

function withoutFettle(input: ReadmeInput): readonly string[] {
  const { models, quantity, material, lay, layer, printer, chance, meets, report, donor } = input;
  const each = models.length === 1 ? models[0]! : `each of ${models.join(', ')}`;
  const known =
    printer === null
      ? 'a printer that nobody had measured'
      : `"${plain(printer.name)}", ${printer.calibrated === null ? 'not calibrated' : `calibrated ${day(printer.calibrated)}`}`;
  const likely =
    chance === null ? '' : ` There it was said to fit the first time with a chance of ${percent(chance)}.`;
  return [
    'WITHOUT FETTLE',
    ...indented(
      `Print ${each}, ${quantity} off, in ${material}, printed solid, layers of ${layer} mm; lying as it is: ${plain(lay)}. Lengths are mm. Never scale it.`,
    ),
    '',
    ...indented(
      `But it was drawn for THAT printer: ${known}.${likely} On yours it comes out larger or smaller by a tenth of a millimetre or two, and your machine may differ as well. Measure the print before it goes near the machine${meets.length === 0 ? '.' : '; it should read'}`,
    ),
    ...columns(meets.map(({ name, predicted }) => [plain(name), `${formatNumber(predicted)} mm`])).map(
      (line) => `    ${line}`,
    ),
    ...(report === undefined ? [] : ['', ...indented(`The rest is in ${report}; open it in a browser.`)]),
    ...(donor === undefined
      ? []
      : ['', ...indented(`It was made from a model of a similar part, ${donor}; its own terms apply too.`)]),
  ];
}

function withFettle({ file, folder, job }: ReadmeInput): readonly string[] {
  return [
    'WITH FETTLE, FOR YOUR PRINTER',
    ...indented('Put your own printer profile into the job and make the part anew:'),
    '',
    `    fettle open ${file} --out ${folder} --printer my.printer.json`,
    `    fettle make ${folder}/${job} --out ${folder}/out`,
    '',
    ...indented(
      'Machines of one model differ too. To measure yours, add --fresh to the first of these, and before the second:',
    ),
    '',
    `    fettle measure ${folder}/${job}`,
    '',
    ...indented('No profile yet? A small print to measure makes one:'),
    '',
    '    fettle printer new my.printer.json',
    '    fettle coupon my.printer.json --out out',
    '    fettle calibrate my.printer.json',
  ];
}

const contents = ({ files }: ReadmeInput): readonly string[] => [
  'WHAT IS IN IT',
  ...columns(files.map(({ path, what }) => [path, what])).map((line) => `  ${line}`),
];

const indented = (text: string): readonly string[] => wrapped(text, WIDTH - 2).map((line) => `  ${line}`);

const item = (mark: string, text: string): readonly string[] =>
  wrapped(sentence(text), WIDTH - 4).map((line, k) => (k === 0 ? `  ${mark} ${line}` : `    ${line}`));

/** One line, whatever a person wrote. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for.
const plain = (text: string): string => text.replace(/[\s\u0000-\u001f\u007f-\u009f]+/g, ' ').trim();
