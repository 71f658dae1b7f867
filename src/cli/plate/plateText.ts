import type { JobPlate } from '../../job/jobPlate.ts';
import type { MakeResult } from '../../job/result.ts';
import { duration, significant } from '../../output/words/index.ts';
import { formatNumber } from '../../units/index.ts';
import { oneLine } from '../oneLine.ts';
import { columns, type Looks, wrapped } from '../terminal.ts';
import { percent } from '../verdict.ts';

/** The plate for a person, line by line: what is on it, whether it will fit the machine, how much of the bed and of the evening
 *  it takes, what to mind. `files` are the paths written. */
export function plateText(
  laid: JobPlate,
  results: readonly MakeResult[],
  files: readonly string[],
  { paint, width }: Looks,
): readonly string[] {
  const { job } = results[0]!;
  const [jobs, parts] = [results.length, laid.plate.placements.length];
  const lead = (word: string): string => `  ${word.padEnd(10)}`;
  const paragraph = (word: string, text: string): readonly string[] =>
    wrapped(text, width - lead('').length).map((line, k) => lead(k === 0 ? word : '') + line);
  const failing = results.flatMap(({ findings, job: { title } }) =>
    findings.some(({ verdict }) => verdict === 'fails') ? [oneLine(title)] : [],
  );
  const cautions = [...new Set(results.flatMap((result) => result.cautions))];
  return [
    `${paint.bold('Plate')} - ${jobs} job${jobs === 1 ? '' : 's'}, ${parts} part${parts === 1 ? '' : 's'} - ${job.material}, ${oneLine(job.printer)}`,
    ...contents(laid, results, width).map((line, k) => (k === 0 ? paint.dim(line) : line)),
    ...paragraph('stands', standing(laid)),
    ...paragraph(
      'takes',
      `${significant(laid.mass)} g and about ${duration(laid.minutes)} in all (${laid.method})`,
    ),
    ...failing.flatMap((title) =>
      paragraph('', `a finding fails for ${title}; "fettle check" says which`).map((line, k) =>
        k === 0 ? paint.red('   X        ') + line.slice(lead('').length) : line,
      ),
    ),
    ...cautions.flatMap((caution) =>
      paragraph('mind', caution).map((line) => line.replace('  mind', paint.yellow('  mind'))),
    ),
    ...files.map((path) => `  wrote ${path}`),
  ];
}

/** A row a part; its number is the one it has in the view from above. */
function contents({ parts }: JobPlate, results: readonly MakeResult[], width: number): readonly string[] {
  const rows = parts.map(({ name, count, height, job }, k) => {
    const { chance, findings } = results[job]!;
    const again = k > 0 && parts[k - 1]!.job === job;
    const fails = findings.filter(({ verdict }) => verdict === 'fails').length;
    return [
      String(k + 1).padStart(2),
      oneLine(name),
      String(count),
      formatNumber(height),
      again ? '' : chance === null ? 'not known' : percent(chance),
      again ? '' : fails === 0 ? 'none fails' : `${fails} fail${fails === 1 ? 's' : ''}`,
    ];
  });
  const table = [[' ', 'part', 'off', 'high (mm)', 'fits first time', 'findings'], ...rows];
  const narrow = columns(table)[0]!.length + 2 > width;
  const kept = narrow ? [0, 1, 2, 4] : [0, 1, 2, 3, 4, 5];
  return columns(table.map((row) => kept.map((k) => row[k]!))).map((line) => `  ${line}`);
}

function standing({ plate, parts, bed, spacing }: JobPlate): string {
  const [width, depth] = [0, 1].map((k) => formatNumber(plate.used.to[k]! - plate.used.from[k]!));
  const turned = plate.placements.filter(({ turn }) => turn !== 0).length;
  const heights = parts.map(({ height }) => Math.round(height));
  const alike = heights.every((height) => height === heights[0]);
  return [
    `${width} x ${depth} mm of ${bed.x} x ${bed.y}, in the middle of the bed, at least ${spacing} mm apart and from its edge`,
    ...(turned === 0 ? [] : [`${turned} turned`]),
    ...(alike
      ? []
      : [plate.tallestInside ? 'tall parts inside' : 'so full that tall parts stand where there was room']),
  ].join('; ');
}
