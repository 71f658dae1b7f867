import fc from 'fast-check';
import { expect, it } from 'vitest';
import { columns, looksOf, wrapped } from '../../src/cli/terminal.ts';

it('breaks a text into lines no longer than asked and loses no word', () => {
  const words = fc.array(fc.stringMatching(/^[a-z]{1,12}$/), { minLength: 1 });
  fc.assert(
    fc.property(words, fc.integer({ min: 12, max: 60 }), (list, width) => {
      const lines = wrapped(list.join(' '), width);
      expect(lines.join(' ')).toBe(list.join(' '));
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(width);
    }),
    { seed: 1 },
  );
});

it('keeps a word whole that is longer than a line', () => {
  expect(wrapped('a incomprehensible b', 5)).toEqual(['a', 'incomprehensible', 'b']);
});

it('leaves a text in one line where nobody looks at lines', () => {
  expect(wrapped('one two three', Number.POSITIVE_INFINITY)).toEqual(['one two three']);
});

it('lines up columns', () => {
  expect(
    columns([
      ['a', 'bb'],
      ['ccc', 'd'],
    ]),
  ).toEqual(['a    bb', 'ccc  d']);
});

const stream = (isTTY: boolean, columns = 80) => ({ isTTY, columns }) as NodeJS.WriteStream;

it.each([
  ['a terminal', stream(true), {}, true],
  ['a pipe', stream(false), {}, false],
  ['a terminal that wants no colour', stream(true), { NO_COLOR: '1' }, false],
  ['a terminal where NO_COLOR is empty, which means nothing', stream(true), { NO_COLOR: '' }, true],
  ['a terminal that knows none', stream(true), { TERM: 'dumb' }, false],
])('paints for %s: %s', (_, out, environment, coloured) => {
  expect(looksOf(out, environment).paint.red('x') !== 'x').toBe(coloured);
});

it.each([
  [stream(true, 60), 60],
  [stream(true, 300), 110],
  [stream(true, 10), 40],
  [stream(true, 0), 80],
  [stream(false), Number.POSITIVE_INFINITY],
])('breaks lines to the window, within what reads well', (out, width) => {
  expect(looksOf(out, {}).width).toBe(width);
});
