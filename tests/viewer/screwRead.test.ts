import { expect, it } from 'vitest';
import { screwLines } from '../../src/cli/screw/screwLines.ts';
import { readScrew } from '../../src/job/screw/readScrew.ts';
import { identifyScrew } from '../../src/standards/threads/identifyScrew.ts';
import { screwRead } from '../../viewer/sheets/measure/screwRead.ts';
import { plain } from './plainLooks.ts';

const told = (diameter: string, threads = '', over = '', unit: 'mm' | 'in' = 'mm') => {
  const answer = screwRead({ diameter, threads, over }, unit);
  if (!answer || !('told' in answer)) throw new Error(JSON.stringify(answer));
  return answer.told;
};
const wrong = (diameter: string, threads = '', over = '') => {
  const answer = screwRead({ diameter, threads, over }, 'mm');
  return answer && 'wrong' in answer ? answer.wrong : null;
};

it.each([
  [{ diameter: '2.84' }],
  [{ diameter: '2.84', pitch: '0.79' }],
  [{ diameter: '4.79', threads: '10', over: '7.95' }],
  [{ diameter: '2.84', threads: '10', over: '7.9' }],
] as const)('says of a screw what the command says: %o', (options) => {
  const { pitch, threads, over } = { pitch: undefined, threads: undefined, over: undefined, ...options };
  const { read, likeliest, doubt, rows, ruledOut, telling, holes, none } = told(
    options.diameter,
    threads,
    over ?? pitch,
  );
  const screw = readScrew(options);
  const lines = screwLines(screw, identifyScrew(screw), plain).join('\n');
  const said = [read, doubt, ruledOut, holes, ...telling, ...rows.map(({ designation }) => designation)];
  for (const words of said) expect(lines).toContain(words);
  expect(lines).toMatch(
    likeliest ? `most likely  ${likeliest.designation}  ${likeliest.likely}` : 'X no thread',
  );
  if (rows.length > 0) expect(lines).toMatch(new RegExp(`none of these +${none}`));
});

it('takes numbers in the unit of the job, and any unit behind them', () => {
  // ASME B1.1: a screw of 4-40 UNC is 0.112 in across and has 40 threads an inch.
  for (const [diameter, over, unit] of [
    ['0.1085', '0.25', 'in'],
    ['0.1085in', '6.35', 'mm'],
    ['2.756', '1/4"', 'mm'],
  ] as const)
    expect(told(diameter, '10', over, unit).likeliest?.designation).toBe('#4-40 UNC');
});

it('says nothing before there is a diameter, and waits with a count for its length', () => {
  expect(screwRead({ diameter: ' ', threads: '10', over: '8' }, 'mm')).toBeNull();
  expect(told('2.84', '10')).toEqual(told('2.84'));
});

it('names the field that says nothing, and what is allowed', () => {
  expect(wrong('30', 'many', '8')).toEqual({
    diameter: '30 is out of range; allowed: 1 to 12 mm, such as 2.84 or 0.112in',
    threads: expect.stringMatching(/^many .*; allowed: a whole number from 1 to 100$/),
  });
  expect(wrong('3', '2', '50')).toEqual({ over: '50 is 25.000 mm a thread; allowed: 0.15 to 3 mm a thread' });
  expect(wrong('3', '', '40')).toEqual({
    over: expect.stringMatching(/^40 is out of range; allowed: 0\.15 to 3/),
  });
});
