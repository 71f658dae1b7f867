import type { Reading } from '../../job/takenReading.ts';

/** Words that may be typed in place of a number, with what each does. */
const words = {
  back: 'the reading before',
  skip: 'the next one, like Enter alone',
  drop: 'takes the last number back, drop 2 the second',
  quit: 'ends; everything is saved',
} as const;

export type Word = keyof typeof words;

/** All of them in one line. */
export const explanation = `Enter after each number. ${Object.entries(words)
  .map(([word, does]) => `${word}: ${does}`)
  .join('. ')}.`;

/** A word as typed, with the number behind `drop` where there is one, from 1. */
export interface Typed {
  readonly word: Word;
  readonly which?: number;
}

/** The word a line is, if it is one; Enter alone is `skip`. Case and blanks do not matter. */
export function wordIn(line: string): Typed | undefined {
  const text = line.trim().toLowerCase();
  if (text === '') return { word: 'skip' };
  const which = /^drop +(\d{1,3})$/.exec(text)?.[1];
  if (which !== undefined) return { word: 'drop', which: Number(which) };
  return Object.hasOwn(words, text) ? { word: text as Word } : undefined;
}

const JAWS = {
  outside: 'large jaws, around it',
  inside: 'small jaws, inside it',
  depth: 'depth rod',
  entered: 'no callipers: type the value',
} as const;

/** Which part of the callipers to use. */
export const jawsFor = ({ spec }: Reading): string => JAWS[spec.jaw];
