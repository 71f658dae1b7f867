import type { bundle } from '../../job/bundle.ts';
import { sentence } from '../../job/problem.ts';
import type { MakeResult } from '../../job/result.ts';
import { percent } from '../../output/words/index.ts';
import { oneLine } from '../oneLine.ts';
import { columns, type Looks, wrapped } from '../terminal.ts';
import type { Terms } from './askTerms.ts';
import { bytesText } from './bytesText.ts';

interface Bundled {
  readonly result: Pick<MakeResult, 'job' | 'chance' | 'findings'>;
  readonly terms: Terms;
  /** Path of the bundle. */
  readonly written: string;
  readonly made: ReturnType<typeof bundle>;
  readonly job: string;
  /** Whether the job was changed to remember the terms. */
  readonly remembered: boolean;
}

/** What a bundle holds, for the person who made it. */
export function bundleText(
  { result, terms, written, made, job, remembered }: Bundled,
  { paint, width }: Looks,
): readonly string[] {
  const { title, printer, material, quantity } = result.job;
  const fails = result.findings.filter(({ verdict }) => verdict === 'fails').length;
  const by = [terms.author ?? 'nobody named', terms.licence || 'no licence stated'].join(', ');
  return [
    `${paint.bold(oneLine(title))} - ${quantity} off - ${material}, ${oneLine(printer)}`,
    `  by        ${oneLine(by)}`,
    ...(result.chance === null ? [] : [`  chance    ${percent(result.chance)} on that printer`]),
    ...(fails === 0
      ? []
      : wrapped(
          `${fails === 1 ? 'a finding fails' : `${fails} findings fail`}; the page for the finder says so, see "fettle check ${job}"`,
          width - 12,
        ).map((line, k) => (k === 0 ? `  ${paint.red('X')}         ${line}` : `            ${line}`))),
    ...columns(made.files.map(({ path, bytes }) => [path, bytesText(bytes.length)])).map(
      (line, k) => `  ${k === 0 ? 'holds   ' : '        '}  ${line}`,
    ),
    ...made.left.flatMap((problem) =>
      wrapped(oneLine(sentence('no 3MF', problem)), width - 12).map((line) => `            ${line}`),
    ),
    `  wrote ${written}    ${bytesText(made.bytes.length)}`,
    ...(remembered ? [`  wrote ${job}    remembers author and licence`] : []),
    `next: pass it on; whoever gets it types fettle open ${made.name} --out FOLDER`,
  ];
}
