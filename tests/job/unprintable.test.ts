import { expect, test } from 'vitest';
import { families } from '../../parts/index.ts';
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
