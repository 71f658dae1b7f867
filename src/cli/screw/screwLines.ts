import type { ReadScrew } from '../../job/screw/readScrew.ts';
import { type ScrewTold, screwTold } from '../../job/screw/screwTold.ts';
import type { ScrewIdentity } from '../../standards/threads/identifyScrew.ts';
import { columns, type Looks, wrapped } from '../terminal.ts';

/** What kind of screw it is, for a person at the bench, line by line. */
export function screwLines(screw: ReadScrew, identity: ScrewIdentity, looks: Looks): readonly string[] {
  const told = screwTold(screw, identity);
  const { width } = looks;
  const isNamed = told.likeliest !== null;
  return [
    `${looks.paint.bold('Screw')} - ${told.read}`,
    ...answer(told, looks),
    ...table(told),
    ...(told.ruledOut === ''
      ? []
      : isNamed
        ? hanging('  ', `ruled out  ${told.ruledOut}`, width, 13)
        : hanging('  ', told.ruledOut, width, 4)),
    ...told.telling.flatMap((words) => hanging('  ', words, width, 4)),
    ...(told.holes === '' ? [] : hanging('  ', told.holes, width, 4)),
  ];
}

function answer({ likeliest, doubt, wantsPitch }: ScrewTold, { paint, width }: Looks): readonly string[] {
  if (likeliest === null) return hanging('  ', `${paint.red('X')} ${doubt}`, width);
  return [
    `  most likely  ${paint.bold(likeliest.designation)}  ${likeliest.likely}`,
    ...(doubt === '' ? [] : hanging('  ', `/!\\ ${doubt}`, width)),
    ...(wantsPitch ? ['  next: measure over ten threads and say --threads 10 --over LENGTH'] : []),
  ];
}

function table({ rows, more, none }: ScrewTold): readonly string[] {
  if (rows.length === 0) return [];
  const lines = columns([
    ['thread', 'may be across', 'pitch', 'read', 'likely'],
    ...rows.map(({ designation, across, pitch, read, likely }) => [designation, across, pitch, read, likely]),
    ...(more === null ? [] : [[`${more.count} more`, '', '', '', more.likely]]),
    ['none of these', '', '', '', none],
  ]);
  return lines.map((line) => `  ${line}`);
}

/** A paragraph with the lines after the first set in further. */
function hanging(first: string, text: string, width: number, further = 6): readonly string[] {
  return wrapped(text, width - further).map((line, k) => `${k === 0 ? first : ' '.repeat(further)}${line}`);
}
