import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../src/check/finding.ts';
import { batchText } from '../../../src/cli/batch/batchText.ts';
import type { Outcome } from '../../../src/cli/batch/outcome.ts';
import { looksOf } from '../../../src/cli/terminal.ts';
import { resultObject } from '../../../src/job/resultObject.ts';
import { fakeResult } from '../fakeResult.ts';

const { paint } = looksOf(process.stdout, { NO_COLOR: '1' });
const told = (outcomes: readonly Outcome[], width = 80) => batchText(outcomes, 'out', { paint, width });

const finding = fakeResult.findings[0]!;
function finished(name: string, verdicts: readonly Finding['verdict'][], chance: number): Outcome {
  const findings = verdicts.map((verdict) => ({ ...finding, verdict }));
  const result = resultObject({ ...fakeResult, findings, chance }, []);
  return { how: 'made', path: `jobs/${name}.job.json`, result, minutes: 12 };
}
const problem = { code: 'reading_range', field: 'readings.bar[0]', value: '"99"', allowed: '1 to 4 mm' };
const refused = (name: string, count = 1): Outcome => ({
  ...{ how: 'refused', path: `jobs/${name}.job.json`, file: `jobs/${name}.job.json` },
  problems: Array.from({ length: count }, () => problem),
});

const three = [
  finished('enter', ['holds', 'holds'], 0.97),
  finished('space', ['fails', 'caution', 'holds'], 0.42),
  refused('shift', 3),
];

describe('of three jobs', () => {
  it('lists each with its mark, in the order given', () => {
    expect(told(three)).toEqual([
      '3 jobs: 2 made, 1 refused, 1 with a finding that fails',
      '      job    chance  findings            mass   prints in',
      '      enter  97 %    2 hold              1.3 g  12 min     made',
      '   X  space  42 %    1 fails, 1 caution  1.3 g  12 min     made',
      '   -  shift  refused: readings.bar[0], and 2 more',
      '  together  2.6 g of filament, about 24 min of printing',
      '  wrote     2 files to out',
      '  more      "fettle check" with one of the jobs says why',
    ]);
  });

  it('warns of cautions and of a chance that shows below 95 %, not of one that rounds to it', () => {
    const marks = [
      finished('a', ['caution'], 0.99),
      finished('b', ['holds'], 0.944),
      finished('c', ['holds'], 0.9461),
    ];
    expect(
      told(marks)
        .slice(2, 5)
        .map((line) => line.slice(0, 7)),
    ).toEqual(['  /!\\ a', '  /!\\ b', '      c']);
  });
});

describe('of three hundred jobs', () => {
  const many = Array.from({ length: 300 }, (_, k): Outcome => {
    if (k % 50 === 7) return refused(`refused-${k}`);
    if (k % 60 === 5) return finished(`failing-${k}`, ['fails'], 0.3);
    return finished(`fine-${k}`, ['holds'], k === 100 ? 0.04 : 0.96);
  });

  it('lists those that somebody has to see to, and only counts the others', () => {
    const text = told(many).join('\n');
    expect(told(many).length).toBeLessThan(24);
    for (const { path } of many) {
      const name = /[^/]+(?=\.job)/.exec(path)![0];
      expect(new RegExp(`^ {3}[X-] {2}${name} `, 'm').test(text), name).toBe(!name.startsWith('fine'));
    }
    expect(text).toContain('300 jobs: 294 made, 6 refused, 5 with a finding that fails');
    expect(text).toContain('288 at 95 % or more, 6 below 50 %; the lowest is 4 %, fine-100');
    expect(text).toContain('in the other 289 no finding fails');
  });

  it('does not run on when all of them are refused', () => {
    const lines = told(Array.from({ length: 300 }, (_, k) => refused(`job-${k}`)));
    expect(lines.length).toBeLessThan(50);
    expect(lines.at(-1)).toBe('      and 260 more; --json lists them all');
  });
});

it.each([40, 60, 80])('breaks no line on a terminal of %i columns', (width) => {
  const long = 'a-name-that-somebody-took-great-care-to-make-as-plain-as-can-be-at-any-cost';
  const outcomes: Outcome[] = [
    ...three,
    finished(long, ['fails', 'caution', 'caution'], 0.5),
    refused(`${long}-2`, 12),
    {
      how: 'broke',
      path: 'x.job.json',
      why: 'Worker terminated due to reaching memory limit: JS heap out of memory',
    },
  ];
  for (const line of told(outcomes, width)) expect(line.length, line).toBeLessThanOrEqual(width);
});

it('keeps what others wrote from moving the cursor', () => {
  const text = told([
    { how: 'broke', path: 'a\u001b[2J.job.json', why: 'b\u001b[2J' },
    refused('c\u001b[2J'),
  ]).join('');
  expect(text).not.toContain('\u001b');
});
