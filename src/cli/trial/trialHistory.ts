import type { Family } from '../../family/family.ts';
import { type Meeting, meetingsOf } from '../../job/inspection/meetings.ts';
import { feltText } from '../../job/trial/feltText.ts';
import type { TrialRecord } from '../../job/trialSchema.ts';
import { day } from '../../output/words/index.ts';
import { formatNumber } from '../../units/index.ts';
import { openPrepared } from '../openJob.ts';
import { blaming } from '../refusedFile.ts';
import { columns, type Looks, looksOf, wrapped } from '../terminal.ts';
import { linesIn } from './trialText.ts';

/** `fettle trial JOB --history`: every print on record, the first one first. Writes nothing. Throws `RefusedFile`. */
export async function trialHistory(
  path: string,
  { json }: { readonly json: boolean },
  families: readonly Family[],
): Promise<void> {
  const { prepared } = await openPrepared(path, families);
  const trials = (prepared.job.trials ?? []) as readonly TrialRecord[];
  const title = prepared.job.title ?? prepared.family.title;
  if (json) {
    const told = trials.map(({ learnt, ...record }, k) => ({
      number: k + 1,
      ...record,
      learnt: learnt !== undefined,
    }));
    process.stdout.write(`${JSON.stringify({ job: { title, path }, trials: told }, null, 2)}\n`);
    return;
  }
  const meetings = blaming(path, () => meetingsOf(prepared));
  const looks = looksOf(process.stdout);
  const head = `${title} - ${trials.length === 0 ? 'no print on record yet' : `${trials.length} print${trials.length === 1 ? '' : 's'} on record`}`;
  const lines = [
    ...wrapped(head, looks.width).map((line, k) => (k === 0 ? looks.paint.bold(line) : line)),
    ...trials.flatMap((record, k) => ['', ...printLines(record, k + 1, meetings, looks)]),
  ];
  for (const line of lines) console.log(line);
}

function printLines(
  record: TrialRecord,
  number: number,
  meetings: readonly Meeting[],
  looks: Looks,
): readonly string[] {
  const lines = linesIn(looks);
  const { date, printer, material, layer, made, sizes, inspected, reworked, felt, broken, note, learnt } =
    record;
  const head = `${number}  ${day(date)}, ${material}, ${printer}, layer ${layer} mm, made from ${made.slice(0, 8)}`;
  const nameOf = (id: string) => meetings.find((one) => one.id === id)?.name ?? id;
  const readings = inspected?.readings ?? {};
  const read = Object.keys(sizes).map((id) => [
    nameOf(id),
    formatNumber(sizes[id]!.drawn),
    formatNumber(sizes[id]!.predicted),
    (readings[id] ?? []).join(' '),
  ]);
  const table = columns([['', 'drawn', 'expected', 'read, as typed'], ...read]);
  const narrow = Math.max(...table.map(({ length }) => length)) + 2 > looks.width;
  const sizeLines = narrow
    ? read.flatMap(([name, drawn, expected, texts]) => [
        ...lines('', `${name}: drawn ${drawn}, expected ${expected}${texts === '' ? '' : `, read ${texts}`}`),
      ])
    : table.map((line, k) => `  ${k === 0 ? looks.paint.dim(line) : line}`);
  const after = Object.entries(inspected?.after ?? {});
  return [
    ...wrapped(head, looks.width),
    ...sizeLines,
    ...(reworked === undefined ? [] : lines('filed', reworked.map(nameOf).join('; '))),
    ...after.flatMap(([id, texts]) => lines('', `${nameOf(id)} read ${texts.join(' ')} after that`)),
    ...(felt === undefined ? [] : lines('felt', feltText(record, meetings) || 'not tried')),
    ...(broken ?? []).flatMap((text) => lines('broken', text)),
    ...(note === undefined ? [] : lines('note', note)),
    ...(learnt === undefined ? [] : lines('printer', `${printer} has learnt from it`)),
  ];
}
