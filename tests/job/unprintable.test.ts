import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { families } from '../../parts/index.ts';
import { oneLine } from '../../src/cli/oneLine.ts';
import { parsePrinter } from '../../src/job/parsePrinter.ts';
import type { Refused } from '../../src/job/problem.ts';
import { readJob } from '../../src/job/readJob.ts';
import { unprintable } from '../../src/job/unprintable.ts';

// C0, DEL and C1 of ISO/IEC 6429, without tab and the ends of lines.
test('names every control character, wherever it hides', () => {
  const codes = [...Array(32).keys(), ...Array.from({ length: 33 }, (_, k) => 0x7f + k)];
  for (const code of codes) {
    const plain = [9, 10, 13].includes(code);
    const found = unprintable({ trials: [{ note: `a${String.fromCharCode(code)}b` }] });
    expect(found.map(({ field }) => field)).toEqual(plain ? [] : ['trials[0].note']);
  }
  expect(unprintable({ 'a\u001bb': 1 })).toHaveLength(1);
  expect(unprintable({ title: 'Füße, 3 × ½ "', n: 4.02, list: ['1,60'] })).toEqual([]);
});

test('a job with one is refused by name', () => {
  const job = { fettle: 1, family: 'stabiliser-clip', title: 'x\u001b[2Jy', readings: {} };
  try {
    readJob(JSON.stringify(job), families);
    expect.unreachable();
  } catch (error) {
    expect((error as Refused).problems[0]).toMatchObject({ code: 'text_unprintable', field: 'title' });
  }
});

test('so is a printer with one', () => {
  const told = {
    ...JSON.parse(readFileSync('parts/stabiliser-clip/demo.job.json', 'utf8')).printer,
    name: 'a\u001b]0;b',
  };
  try {
    parsePrinter(told);
    expect.unreachable();
  } catch (error) {
    expect((error as Refused).problems).toMatchObject([{ code: 'text_unprintable', field: 'name' }]);
  }
});

// UAX #9, the explicit embeddings, overrides and isolates; its implicit marks stay, for names in Hebrew and Arabic need them.
test('names what turns the direction of writing over', () => {
  for (let code = 0x2000; code < 0x2100; code++) {
    const explicit = (code >= 0x202a && code <= 0x202e) || (code >= 0x2066 && code <= 0x2069);
    const text = `a${String.fromCharCode(code)}b`;
    expect(unprintable({ title: text }).length, code.toString(16)).toBe(Number(explicit));
    if (explicit) expect(oneLine(text)).toBe(`a\\u${code.toString(16)}b`);
  }
});

test('looks as deep as JSON goes, and names each place in the order of the file', () => {
  const deep = (inner: string) => JSON.parse(`${'['.repeat(4000)}${inner}${']'.repeat(4000)}`);
  expect(unprintable(deep('"plain"'))).toEqual([]);
  expect(unprintable(deep('"a\\u0007"'))).toHaveLength(1);
  const several = { a: '\u0007', b: ['x', { c: '\u0007' }], '\u0007': 1, d: '\u0007' };
  expect(unprintable(several).map(({ field }) => field)).toEqual(['a', 'b[1].c', '', 'd']);
});
