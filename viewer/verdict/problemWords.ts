import type { Problem } from '../../src/job/problem.ts';

/** A problem as the bench says it. */
export interface ProblemWords {
  /** What it is about: "socket width". */
  readonly name: string;
  /** What is wrong: "40.3 is out of range". */
  readonly what: string;
  /** What puts it right: "3 readings from 3 to 6 mm". */
  readonly wanted: string;
}

/** Fields whose name in the file says less than a word of the bench. */
const names: Readonly<Record<string, string>> = {
  '': 'the job',
  family: 'kind of part',
  unit: 'unit',
  title: 'title',
  quantity: 'quantity',
  material: 'material',
  printer: 'printer',
  author: 'author',
  licence: 'licence',
  note: 'note',
  donor: 'model',
  callipers: 'callipers',
  surroundings: 'surroundings',
  trials: 'prints tried',
  ladders: 'ladders',
  fits: 'fit',
};

/** A problem in the words of the bench, with no path of a file in it. */
export function problemWords({ field, value, allowed, reason = '' }: Problem): ProblemWords {
  // What the pipeline knows the name of, it says first, in brackets.
  const [, told, rest = ''] = /^\((.+?)\)\s+([\s\S]+)$/.exec(reason) ?? [undefined, undefined, reason];
  const given = unquoted(value);
  return {
    name: told ?? nameOfField(field),
    what: [given, rest || (given === '' ? 'is missing' : 'will not do')]
      .filter((text) => text !== '')
      .join(' '),
    wanted: allowed,
  };
}

/** "sizes.leadIn" is the lead in; "trials[1].note" the note of print 2. */
function nameOfField(field: string): string {
  const [head = '', ...rest] = field.split('.');
  const [, list, place] = /^(\w*)\[(\d+)\]$/.exec(head) ?? [];
  const own = rest.at(-1)?.replace(/\[\d+\]$/, '');
  if (list !== undefined) {
    const whole = `${list === 'trials' ? 'print' : list} ${Number(place) + 1}`;
    return own === undefined ? whole : `${spaced(own)} of ${whole}`;
  }
  if (own === undefined) return names[head] ?? spaced(head);
  const within = ['printer', 'callipers', 'donor', 'fits'].includes(head);
  return within ? `${names[head]}, ${spaced(own)}` : spaced(own);
}

/** @example spaced('socketWidth') // => 'socket width' */
const spaced = (id: string): string =>
  id
    .replace(/([a-z0-9])([A-Z])/g, '$1 $2')
    .replace(/[-_]/g, ' ')
    .toLowerCase();

/** A value as it was typed, where it was typed as one text; cut ones stay as they are. */
function unquoted(value: string): string {
  try {
    const read: unknown = JSON.parse(value);
    return typeof read === 'string' ? read : value;
  } catch {
    return value;
  }
}
