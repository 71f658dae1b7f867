import { readFileSync } from 'node:fs';
import { describe, expect, it, test } from 'vitest';
import { families } from '../../../parts/index.ts';
import { type ToldTrial, toldTrial } from '../../../src/cli/trial/toldTrial.ts';
import { meetingsOf } from '../../../src/job/inspection/meetings.ts';
import { type Problem, Refused } from '../../../src/job/problem.ts';
import { readJob } from '../../../src/job/readJob.ts';
import { openTrial } from '../../../src/job/trial/openTrial.ts';
import { saidOf } from '../../../src/job/trial/trialSaid.ts';
import type { TrialRecord } from '../../../src/job/trialSchema.ts';
import { demoJob } from '../fettle.ts';

const prepared = readJob(readFileSync(demoJob, 'utf8'), families);
const meetings = meetingsOf(prepared);
const record = openTrial(prepared, '2026-12-03', 'ab'.repeat(32));

function problemsOf(told: ToldTrial, of: TrialRecord = record): readonly Problem[] {
  try {
    toldTrial(told, meetings, of);
  } catch (error) {
    if (error instanceof Refused) return error.problems;
    throw error;
  }
  throw new Error('was not refused');
}

describe('what a person says of a print', () => {
  it('by interface and by group', () => {
    const said = toldTrial(
      {
        felt: ['Socket=too tight', ' bar = r', 'drop=long'],
        reworked: ['bar', 'bar'],
        broken: [' arm ', ' '],
      },
      meetings,
      record,
    );
    expect(said).toEqual({
      felt: { 'socket.width': 'tight', bar: 'right', drop: 'loose' },
      reworked: ['bar'],
      broken: ['arm'],
      note: undefined,
      taken: [{ name: 'Socket', word: 'tight', ids: ['socket.width'] }],
    });
  });

  it('is added to a record, never written over what is there', () => {
    const once = saidOf(
      record,
      toldTrial({ felt: ['bar=right'], broken: ['arm'], note: 'a' }, meetings, record),
    );
    const twice = saidOf(
      once,
      toldTrial({ felt: ['bar=right', 'drop=short'], broken: ['lip'], note: 'b' }, meetings, once),
    );
    expect(twice).toEqual({
      ...record,
      ...{ felt: { bar: 'right', drop: 'tight' }, broken: ['arm', 'lip'], note: 'a; b' },
    });
    expect(once.felt).toEqual({ bar: 'right' });
  });

  test.each<[string, ToldTrial, Partial<Problem>]>([
    ['an interface that is none', { felt: ['sockt=tight'] }, { code: 'interface_unknown', value: 'sockt' }],
    ['a word that is none', { felt: ['bar=snug'] }, { field: '--felt bar', allowed: 'tight, right, loose' }],
    ['a word for a step', { felt: ['drop=wide'] }, { field: '--felt drop', allowed: 'short, right, long' }],
    [
      'no word',
      { felt: ['bar'] },
      { code: 'felt_unclear', allowed: 'an interface and a word, as in socket.width=tight' },
    ],
    ['no interface', { felt: ['=tight'] }, { code: 'felt_unclear' }],
    ['two words', { felt: ['bar=tight', 'bar=loose'] }, { code: 'felt_twice', value: 'tight and loose' }],
    ['two words through a group', { felt: ['socket=tight', 'socket.width=right'] }, { code: 'felt_twice' }],
    ['a rework of nothing', { reworked: ['mouht'] }, { field: '--reworked', value: 'mouht' }],
    [
      'a tale',
      { broken: ['x'.repeat(201)] },
      { field: '--broken', value: '201 letters', allowed: 'up to 200' },
    ],
    ['a book', { note: 'x'.repeat(2001) }, { field: '--note', allowed: 'up to 2000' }],
  ])('%s is refused', (_, told, problem) => {
    const problems = problemsOf(told);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject(problem);
  });

  it('that contradicts the record is refused', () => {
    const felt: TrialRecord = { ...record, felt: { bar: 'loose' } };
    expect(problemsOf({ felt: ['bar=tight'] }, felt)).toMatchObject([
      { code: 'felt_already', value: 'tight' },
    ]);
    expect(toldTrial({ felt: ['bar=loose'] }, meetings, felt).felt).toEqual({ bar: 'loose' });
  });
});
