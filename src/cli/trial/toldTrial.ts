import { feltOf, feltWord, feltWords } from '../../job/inspection/feltWord.ts';
import type { Meeting } from '../../job/inspection/meetings.ts';
import { meetingsNamed } from '../../job/inspection/meetingsNamed.ts';
import type { PrintClearance } from '../../job/inspection/printClearance.ts';
import { type Problem, Refused } from '../../job/problem.ts';
import { saidLimits, type TrialSaid } from '../../job/trial/trialSaid.ts';
import type { FeltWord, TrialRecord } from '../../job/trialSchema.ts';
import { shown } from '../../job/zodProblems.ts';

/** Options of `fettle trial` that tell of a print, as typed. */
export interface ToldTrial {
  readonly felt?: readonly string[];
  readonly reworked?: readonly string[];
  readonly broken?: readonly string[];
  readonly note?: string;
  readonly notTried?: true;
}

/** Whether the options tell of a print at all. */
export const tells = ({ felt, reworked, broken, note, notTried }: ToldTrial): boolean =>
  [felt, reworked, broken, note, notTried].some((option) => option !== undefined);

/** What options say of a print. Throws `Refused` with every problem: interfaces that are none, words that are none, one
 *  interface said to feel two ways, or otherwise than the record has it already. `read`: clearances of the print as read. */
export function toldTrial(
  told: ToldTrial,
  meetings: readonly Meeting[],
  record: TrialRecord,
  read: Readonly<Record<string, PrintClearance>> = {},
): TrialSaid {
  const problems: Problem[] = [];
  const named = (name: string, field: string): readonly string[] => {
    try {
      return meetingsNamed(name, meetings, field);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      problems.push(...error.problems);
      return [];
    }
  };
  const felt: Record<string, FeltWord> = {};
  const taken: TrialSaid['taken'][number][] = [];
  for (const text of told.felt ?? []) {
    const [, name, typed] = /^([^=]*)=(.*)$/.exec(text) ?? [];
    if (name === undefined || typed === undefined || name.trim() === '') {
      problems.push({
        code: 'felt_unclear',
        field: '--felt',
        value: shown(text),
        allowed: `an interface and a word, as in ${meetings[0]?.id ?? 'post'}=tight`,
      });
      continue;
    }
    const ids = named(name, '--felt');
    if (ids.length === 0) continue;
    const kinds = meetings.filter(({ id }) => ids.includes(id)).map(({ one }) => one.kind);
    const word = kinds.map((kind) => feltWord(typed, kind)).find((each) => each !== undefined);
    if (word === undefined) {
      problems.push({
        code: 'felt_unknown',
        field: `--felt ${name.trim()}`,
        value: shown(typed),
        allowed: [...new Set(kinds.flatMap((kind) => feltWords(kind)))].join(', '),
      });
      continue;
    }
    const about = feltOf(ids, word, meetings, record, read);
    if (about.length === 0)
      problems.push({
        code: 'felt_unknown',
        field: `--felt ${name.trim()}`,
        value: shown(typed),
        allowed: `one interface of it, as in ${ids[0]}=${word}`,
        reason: 'none of its sizes has such an end',
      });
    if (about.length < ids.length) taken.push({ name: name.trim(), word, ids: about });
    for (const id of about) {
      if (felt[id] !== undefined && felt[id] !== word)
        problems.push({
          code: 'felt_twice',
          field: `--felt ${id}`,
          value: `${felt[id]} and ${word}`,
          allowed: 'one word for each interface',
        });
      felt[id] = word;
    }
  }
  problems.push(...contradictions(felt, record));
  const reworked = (told.reworked ?? []).flatMap((name) => named(name, '--reworked'));
  const broken = (told.broken ?? []).map((text) => text.trim()).filter((text) => text !== '');
  const { note } = told;
  for (const [field, text, longest] of [
    ...broken.map((each) => ['--broken', each, saidLimits.broken] as const),
    ['--note', note ?? '', saidLimits.note] as const,
  ])
    if (text.length > longest)
      problems.push({
        code: 'text_too_long',
        field,
        value: `${text.length} letters`,
        allowed: `up to ${longest}`,
      });
  if (broken.length + (record.broken?.length ?? 0) > saidLimits.mostBroken)
    problems.push({
      code: 'too_many_broken',
      field: '--broken',
      value: `${broken.length + (record.broken?.length ?? 0)} things`,
      allowed: `up to ${saidLimits.mostBroken}`,
    });
  if (problems.length > 0) throw new Refused(problems);
  return { felt, reworked: [...new Set(reworked)], broken, note: note?.trim() || undefined, taken };
}

/** What is said now against what the record holds; a word once said stays. */
function contradictions(felt: TrialSaid['felt'], record: TrialRecord): readonly Problem[] {
  return Object.entries(felt).flatMap(([id, word]) => {
    const before = record.felt?.[id];
    if (before === undefined || before === word) return [];
    return [
      {
        code: 'felt_already',
        field: `--felt ${id}`,
        value: word,
        allowed: `${before}, as is on record; --undo takes the last trial back`,
        reason: 'was said otherwise of the same print',
      },
    ];
  });
}
