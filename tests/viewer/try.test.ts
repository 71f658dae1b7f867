import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { JobFile } from '../../src/job/schema.ts';
import type { FileTrial } from '../../src/job/trial/withRecord.ts';
import type { TrialRecord } from '../../src/job/trialSchema.ts';
import {
  draftFrom,
  feltLines,
  nothingSaid,
  saidBy,
  saysNothing,
  withFelt,
} from '../../viewer/sheets/try/feltDraft.ts';
import { localDay } from '../../viewer/sheets/try/localDay.ts';
import { Newest } from '../../viewer/sheets/try/newest.ts';
import { changedPrint, printTexts, withPrintTexts } from '../../viewer/sheets/try/printTexts.ts';
import { printHeadline, shouldRead, whichWords } from '../../viewer/sheets/try/tryWords.ts';

const size = {
  ...{ drawn: 3.84, predicted: 3.94, clearance: 0.08, window: [0, 0.15] as [number, number], aim: 0.075 },
  doubt: { printer: 0.02, machine: 0.01, spread: 0.02 },
};
const record: FileTrial & TrialRecord = {
  ...{ date: '2026-12-03', made: 'ab'.repeat(32), printer: 'printer 1', material: 'PETG', layer: 0.2 },
  sizes: { 'socket.width': size, 'socket.length': size, bar: size },
};
const job: JobFile = { fettle: 1, family: 'peg', readings: { hole: ['4.02'] } };
const print = { record, index: 0 };

describe('readings of a print in its job', () => {
  const text = fc.stringMatching(/^[1-9]\.[0-9]{2}$/);
  const deeds = fc.array(
    fc.tuple(fc.constantFrom('socket.width', 'socket.length', 'bar'), fc.array(text, { maxLength: 3 })),
    { maxLength: 8 },
  );

  test('stand as typed under their place, and the job is as it was once all are taken away', () => {
    fc.assert(
      fc.property(deeds, (all) => {
        const last = new Map(all);
        const read = all.reduce((now, [id, texts]) => withPrintTexts(now, print, id, texts), job);
        for (const [id, texts] of last) expect(printTexts(read, print, id)).toEqual(texts);
        expect(read.readings).toEqual(job.readings);
        const emptied = [...last.keys()].reduce((now, id) => withPrintTexts(now, print, id, []), read);
        expect(emptied).toEqual(job);
      }),
      { seed: 20261203 },
    );
  });

  test('after it was filed a place is read anew, and what was read before stays on record', () => {
    const read = withPrintTexts(job, print, 'bar', ['1.79']);
    const filed = changedPrint(read, print, (now) => ({ ...now, reworked: ['bar'] }));
    expect(printTexts(filed, print, 'bar')).toEqual([]);
    const again = withPrintTexts(filed, print, 'bar', ['1.85']);
    expect(printTexts(again, print, 'bar')).toEqual(['1.85']);
    expect(again.trials?.[0]?.inspected).toEqual({ readings: { bar: ['1.79'] }, after: { bar: ['1.85'] } });
    // That it was filed is said, so the record stays though nothing is read.
    const emptied = withPrintTexts(withPrintTexts(again, print, 'bar', []), print, 'socket.width', []);
    expect(emptied.trials).toHaveLength(1);
  });

  test('never go into a record that another tab has put in its place', () => {
    const other: JobFile = { ...job, trials: [{ ...record, made: 'cd'.repeat(32) }] };
    expect(withPrintTexts(other, print, 'bar', ['1.79'])).toBe(other);
    expect(printTexts(other, print, 'bar')).toEqual([]);
    const more: JobFile = { ...job, trials: [] };
    expect(withPrintTexts(more, { record, index: 2 }, 'bar', ['1.79'])).toBe(more);
  });

  test('earlier records stay untouched', () => {
    const first = { ...record, made: 'ef'.repeat(32), felt: { bar: 'right' as const } };
    const before: JobFile = { ...job, trials: [first] };
    const second = { record, index: 1 };
    const read = withPrintTexts(before, second, 'bar', ['1.79']);
    expect(read.trials?.[0]).toEqual(first);
    expect(withPrintTexts(read, second, 'bar', [])).toEqual(before);
  });
});

describe('what is being said of a print', () => {
  const groups = [
    { id: 'socket', name: 'post in socket', ids: ['socket.width', 'socket.length'] },
    { id: 'bar', name: 'bar in slot', ids: ['bar'] },
  ];
  const names = (id: string) => `the ${id}`;

  test('one line a group, told apart when asked, or when one of it is on record', () => {
    expect(feltLines(groups, names, nothingSaid, record).map(({ id }) => id)).toEqual(['socket', 'bar']);
    const apart = { ...nothingSaid, apart: ['socket'] };
    expect(feltLines(groups, names, apart, record).map(({ name }) => name)).toEqual([
      ...['the socket.width', 'the socket.length', 'bar in slot'],
    ]);
    const known = feltLines(groups, names, nothingSaid, { felt: { 'socket.width': 'tight' } });
    expect(known.map(({ known: word }) => word)).toEqual(['tight', null, null]);
  });

  test('goes to the worker as it was chosen, and what is on record is not said again', () => {
    const draft = {
      ...withFelt(withFelt(nothingSaid, 'socket', 'tight'), 'bar', 'right'),
      ...{ filed: ['socket'], broken: ' arm ;; tip of the post', note: ' ' },
    };
    expect(saidBy(draft, feltLines(groups, names, draft, record))).toEqual({
      felt: [
        { name: 'post in socket', ids: ['socket.width', 'socket.length'], word: 'tight' },
        { name: 'bar in slot', ids: ['bar'], word: 'right' },
      ],
      reworked: ['socket.width', 'socket.length'],
      broken: ['arm', 'tip of the post'],
      note: undefined,
    });
    const again = saidBy(draft, feltLines(groups, names, draft, { felt: { bar: 'loose' } }));
    expect(again.felt.map(({ ids }) => ids)).toEqual([['socket.width', 'socket.length']]);
    expect(saysNothing(withFelt(withFelt(nothingSaid, 'bar', 'tight'), 'bar', null))).toBe(true);
  });

  test('is remembered by a tab that is loaded again; what is no draft is none', () => {
    const draft = { ...withFelt(nothingSaid, 'bar', 'loose'), note: '<b>hard</b>' };
    expect(draftFrom(JSON.stringify(draft))).toEqual(draft);
    for (const text of [
      ...[null, '', '{', '3', 'null', '[]', '{"felt":{"bar":"soft"}}', '{"felt":null}', '{"note":3}'],
      '{"apart":"socket"}',
    ])
      expect([text, saysNothing(draftFrom(text))]).toEqual([text, true]);
  });
});

describe('asking the newest alone', () => {
  test('questions that come meanwhile give way to the last of them, and a failure ends nothing', async () => {
    const taken: number[] = [];
    const asked: number[] = [];
    const newest = new Newest<number>((answer) => taken.push(answer));
    const doors: (() => void)[] = [];
    const question = (n: number) => () =>
      new Promise<number>((resolve, reject) => {
        asked.push(n);
        doors.push(() => (n === 3 ? reject(new Error('broke')) : resolve(n)));
      });
    const settle = async () => {
      doors.at(-1)?.();
      for (let k = 0; k < 5; k++) await Promise.resolve();
    };
    for (const n of [0, 1, 2, 3]) newest.ask(question(n));
    await settle();
    newest.ask(question(4));
    await settle();
    await settle();
    expect(asked).toEqual([0, 3, 4]);
    expect(taken).toEqual([0, 4]);
  });
});

describe('words', () => {
  test('the day is that of the clock on the wall', () => {
    // Half past eleven at night in Greenwich is the next day in Vienna (UTC+1) and the same in New York (UTC-5).
    const late = Date.UTC(2026, 11, 3, 23, 30);
    expect(localDay(late, -60)).toBe('2026-12-04');
    expect(localDay(late, 300)).toBe('2026-12-03');
  });

  test('which print it is', () => {
    expect(whichWords({ record, index: 0, isNew: true, changed: false })).toBe(
      'Print 1, as it is drawn now.',
    );
    expect(whichWords({ record, index: 0, isNew: false, changed: false })).toContain('3 Dec 2026');
    expect(whichWords({ record, index: 1, isNew: true, changed: true })).toContain('since print 1 was read');
  });

  test('limits are said so that no size outside them is let pass', () => {
    const place = { expected: 3.9412, limits: [3.8664, 4.0161] as const };
    expect(shouldRead(place, 'mm')).toBe('should show 3.94, fits 3.87 to 4.01 mm');
    expect(shouldRead({ expected: 5, limits: [4.9, null] }, 'mm')).toBe(
      'should show 5.00, fits 4.90 and up mm',
    );
    // 3.8664 mm are 0.15222 inch.
    expect(shouldRead(place, 'in')).toBe('should show 0.1552, fits 0.1522 to 0.1581 in');
  });

  test('the headline goes by the gravest place, and readings that do not agree before it', () => {
    const judged = (cause: 'as-expected' | 'reading') =>
      [{ verdict: 'rework', cause, stale: false }] as never;
    expect(printHeadline({ verdict: 'rework', unread: [], sizes: judged('as-expected') })).toBe(
      'It can be made to fit.',
    );
    expect(printHeadline({ verdict: 'rework', unread: ['bar'], sizes: judged('reading') })).toBe(
      'Something is to be read again, 1 of 2 not read yet.',
    );
    expect(printHeadline({ verdict: null, unread: ['bar'], sizes: [] })).toContain('Nothing is read');
  });
});
