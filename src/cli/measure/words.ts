import type { Reading } from './reading.ts';

/** Words that may be typed in place of a number, with what each does. */
export const words = {
  back: 'the reading before',
  skip: 'the next one, like Enter alone',
  drop: 'takes the last number back',
  quit: 'ends; everything is saved',
} as const;

export type Word = keyof typeof words;

/** All of them in one line. */
export const explanation = `Enter after each number. ${Object.entries(words)
  .map(([word, does]) => `${word}: ${does}`)
  .join('. ')}.`;

/** The word a line is, if it is one; Enter alone is `skip`. Case and blanks do not matter. */
export function wordIn(line: string): Word | undefined {
  const text = line.trim().toLowerCase();
  if (text === '') return 'skip';
  return Object.hasOwn(words, text) ? (text as Word) : undefined;
}

const JAWS = {
  outside: 'large jaws, around it',
  inside: 'small jaws, inside it',
  depth: 'depth rod',
  entered: 'no callipers: type the value',
} as const;

/** Which part of the callipers to use. */
export const jawsFor = ({ spec }: Reading): string => JAWS[spec.jaw];
