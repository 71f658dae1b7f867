import { readFileSync } from 'node:fs';
import { describe, expect, it, test } from 'vitest';
import type { Finding } from '../../../src/check/finding.ts';
import { brokenAdvice } from '../../../src/job/inspection/brokenAdvice.ts';
import { currentTrial, printOnBench } from '../../../src/job/inspection/currentTrial.ts';
import { feltOf, feltWord, spokenWord } from '../../../src/job/inspection/feltWord.ts';
import { inspect } from '../../../src/job/inspection/inspection.ts';
import { driftText, todoFor, whyOf } from '../../../src/job/inspection/inspectionWords.ts';
import { meetingsOf } from '../../../src/job/inspection/meetings.ts';
import { meetingsNamed } from '../../../src/job/inspection/meetingsNamed.ts';
import { reworkCautions } from '../../../src/job/inspection/reworkCautions.ts';
import type { Prepared } from '../../../src/job/prepare.ts';
import { Refused } from '../../../src/job/problem.ts';
import type { Job } from '../../../src/job/schema.ts';
import type { TrialRecord } from '../../../src/job/trialSchema.ts';
import { demo, read } from '../demo.ts';
import { about, aPrint } from './aPrint.ts';

const clip = read(demo());
const meetings = meetingsOf(clip);

describe('words for how it felt', () => {
  test.each([
    ['tight', 'post', 'tight'],
    ['Too Tight', 'post', 'tight'],
    ['t', 'slot', 'tight'],
    ['l', 'slot', 'loose'],
    ['RIGHT', 'step', 'right'],
    ['short', 'step', 'tight'],
    ['long', 'step', 'loose'],
    ['lo', 'step', 'loose'],
    ['too loose', 'step', 'loose'],
    ['snug', 'post', undefined],
    ['short', 'post', undefined],
    ['', 'post', undefined],
    ['too', 'post', undefined],
    ['tighter', 'post', undefined],
  ] as const)('"%s" of a %s is %s', (text, kind, word) => {
    expect(feltWord(text, kind)).toBe(word);
    if (word !== undefined) expect(feltWord(spokenWord(word, kind), kind)).toBe(word);
  });

  it('of a group: right all over, tight where it was nearest to that end', () => {
    const { sizes } = aPrint(clip, {});
    const ids = ['socket.width', 'socket.length'];
    expect(feltOf(ids, 'right', meetings, { sizes })).toEqual(ids);
    // The width is meant to have 0.075 mm of room, the length 0.2.
    expect(feltOf(ids, 'tight', meetings, { sizes })).toEqual(['socket.width']);
    expect(feltOf(['socket.length'], 'tight', meetings, { sizes })).toEqual(['socket.length']);
    // What was read of the print goes before what was expected of it.
    const read = { 'socket.width': { value: 0.07, u: 0.02 }, 'socket.length': { value: 0.03, u: 0.02 } };
    expect(feltOf(ids, 'tight', meetings, { sizes }, read)).toEqual(['socket.length']);
    // A size without such an end cannot have felt so.
    const open = {
      ...sizes,
      'socket.width': { ...sizes['socket.width']!, window: [null, 0.15] as [null, number] },
    };
    expect(feltOf(ids, 'tight', meetings, { sizes: open })).toEqual(['socket.length']);
  });
});

describe('names of interfaces', () => {
  test.each([
    ['socket', ['socket.width', 'socket.length']],
    ['Socket.Width', ['socket.width']],
    ['bar', ['bar']],
    ['bar.run', ['bar.run']],
  ])('%s', (name, ids) => expect(meetingsNamed(name, meetings, '--felt')).toEqual(ids));

  it('of a set: on every part, on one, or all of one', () => {
    const foot = read(JSON.parse(readFileSync('parts/case-foot/demo.job.json', 'utf8')));
    const [first] = meetingsOf(foot);
    const as = (id: string, own: string) => ({ id, one: { ...first!.one, id: own } });
    const set = ['left', 'right'].flatMap((part) =>
      ['stem.width', 'height'].map((own) => as(`${part}.${own}`, own)),
    );
    expect(meetingsNamed('stem', set, '')).toEqual(['left.stem.width', 'right.stem.width']);
    expect(meetingsNamed('height', set, '')).toEqual(['left.height', 'right.height']);
    expect(meetingsNamed('left', set, '')).toEqual(['left.stem.width', 'left.height']);
    expect(meetingsNamed('right.stem', set, '')).toEqual(['right.stem.width']);
  });

  it('propose the near one', () => {
    const refused = () => meetingsNamed('sockt.width', meetings, '--felt');
    expect(refused).toThrow(Refused);
    try {
      refused();
    } catch (error) {
      const [problem] = (error as Refused).problems;
      expect(problem).toMatchObject({ code: 'interface_unknown', field: '--felt', value: 'sockt.width' });
      expect(problem!.allowed).toMatch(/Did you mean socket.width\?$/);
    }
  });
});

describe('what broke', () => {
  const finding = (id: string, title: string, more: Partial<Finding> = {}): Finding => ({
    ...{
      id,
      title,
      verdict: 'holds',
      value: 2.2,
      limit: 2.6,
      unit: '%',
      margin: 0.4,
      because: '',
      source: '',
    },
    ...{ remedy: '', at: null, ...more },
  });
  const findings = [
    finding('clearance.mouth', 'mouth on bar'),
    finding('strain.mouth.drawn', 'strain of the arms, as drawn', { margin: 2.5 }),
    finding('strain.mouth.predicted', 'strain of the arms, as expected off the printer'),
    finding('layers.mouth', 'layers against the bending of the arms', {
      verdict: 'caution',
      remedy: 'lay it on its side',
    }),
    finding('wall', 'thinnest wall', { unit: 'mm' }),
  ];

  test.each([
    ['arm of the mouth', 'strain.mouth.predicted', 3],
    ['both arms', 'strain.mouth.predicted', 3],
    ['it split between the layers', 'layers.mouth', 4],
    ['a thin wall', 'wall', 5],
  ])('%s concerns %s', (words, id, number) => {
    const advice = brokenAdvice(words, findings);
    expect(advice.finding).toEqual({ id, number });
    expect(advice.sentence).toContain(`finding ${number}, `);
  });

  it('says what would have put right what was cautioned about, and what to look for where all was well', () => {
    expect(brokenAdvice('split layers', findings).sentence).toMatch(/: lay it on its side$/);
    expect(brokenAdvice('arm', findings).sentence).toMatch(/was reckoned to hold: look for a weak bond/);
  });

  it('invents nothing, and warns where the old part may be hurt', () => {
    expect(brokenAdvice('zzz', findings)).toMatchObject({ finding: null });
    expect(brokenAdvice('the keycap cracked', findings).sentence).toMatch(/try nothing more by force/);
  });
});

/** A job with these prints on record. */
const recorded = (prepared: Prepared, trials: readonly TrialRecord[]): Prepared => ({
  ...prepared,
  job: { ...prepared.job, trials: [...trials] as NonNullable<Job['trials']> },
});

describe('which print is meant', () => {
  const withTrials = (...trials: TrialRecord[]): Prepared => recorded(clip, trials);
  const first = aPrint(clip, { bar: about(1.79) });

  it('the first, the last until it was felt, then a new one', () => {
    expect(currentTrial(clip, '2026-12-04')).toMatchObject({ index: 0, isNew: true, changed: false });
    expect(currentTrial(withTrials(first), '2026-12-04')).toMatchObject({
      index: 0,
      isNew: false,
      record: first,
    });
    const felt: TrialRecord = { ...first, felt: { bar: 'right' } };
    const next = currentTrial(withTrials(felt), '2026-12-04');
    expect(next).toMatchObject({ index: 1, isNew: true, record: { date: '2026-12-04' } });
    expect(next.record.felt).toBeUndefined();
    expect(currentTrial(withTrials(felt), '2026-12-04', { last: true })).toMatchObject({
      index: 0,
      isNew: false,
    });
    expect(currentTrial(withTrials(first), '2026-12-04', { again: true })).toMatchObject({
      index: 1,
      isNew: true,
    });
  });

  it('one lies on the bench until it was felt, or the job draws it otherwise', () => {
    expect(printOnBench(clip)).toBeNull();
    expect(printOnBench(withTrials(first))).toBe(1);
    const felt: TrialRecord = { ...first, felt: { bar: 'right' } };
    expect(printOnBench(withTrials(felt))).toBeNull();
    const changed = read(demo((job) => (job.readings.socketWidth = ['4.20', '4.21'])));
    expect(printOnBench(recorded(changed, [first]))).toBeNull();
  });

  it('readings of the last print, which move what is drawn next, do not make it another', () => {
    const off = aPrint(clip, { 'socket.width': about(4.1), bar: about(1.6) });
    const drawnNext = meetingsOf(withTrials(off)).find(({ id }) => id === 'bar')!.one.drawn;
    expect(Math.abs(drawnNext - off.sizes.bar!.drawn)).toBeGreaterThan(0.02);
    expect(currentTrial(withTrials(off), '2026-12-04').isNew).toBe(false);
  });

  it('a job that draws it otherwise makes it another, unless told', () => {
    const changed = read(demo((job) => (job.readings.socketWidth = ['4.20', '4.21'])));
    const job = recorded(changed, [first]);
    expect(currentTrial(job, '2026-12-04')).toMatchObject({ index: 1, isNew: true, changed: true });
    expect(currentTrial(job, '2026-12-04', { last: true })).toMatchObject({ index: 0, isNew: false });
  });
});

describe('a verdict in words', () => {
  const judged = (readings: Record<string, string[]>) => inspect(clip, aPrint(clip, readings));
  // The callipers of the demo show 0.01 closed.
  const at = (id: string, by: number) => about(aPrint(clip, {}).sizes[id]!.predicted + 0.01 + by);

  it('says how much to file, where, and that it may fit all the same', () => {
    const [size] = judged({ 'socket.width': at('socket.width', 0.1) }).sizes;
    expect(todoFor(size!)).toMatch(
      /^take 0\.10 mm off in all, 0\.05 a side, with a flat file, and read it again; it may still fit \(\d+ %\), so read it again first$/,
    );
    expect(whyOf(size!, undefined)).toMatch(/^0\.10 mm larger than expected off the printer \(3\.94\)/);
  });

  it('says why it is made again', () => {
    const [size] = judged({ 'socket.width': at('socket.width', -0.2) }).sizes;
    expect(todoFor(size!)).toBe('make it again: it is too thin, and plastic only comes off');
  });

  it('asks for another reading before any file where readings do not agree', () => {
    const [size] = judged({ 'socket.width': [...at('socket.width', 0.1), '4.40'] }).sizes;
    expect(size!.verdict).toBe('rework');
    expect(todoFor(size!)).toMatch(/^read it again before anything else/);
  });

  it('names the one thing that explains several', () => {
    const inspection = judged({
      bar: at('bar', -0.1),
      'bar.run': at('bar.run', -0.1),
      mouth: at('mouth', -0.1),
    });
    expect(driftText(inspection)).toMatch(
      /^one thing explains bar in slot, run of the bar and mouth on bar: bores and slots close in more by 0\.0[45]\d? mm a side than its profile says/,
    );
  });

  it('cautions for the tools it names and no others', () => {
    expect(reworkCautions([])).toEqual([]);
    expect(reworkCautions(['flat file', 'needle file']).filter((one) => /drill/.test(one))).toEqual([]);
    expect(reworkCautions(['drill']).some((one) => /vice/.test(one))).toBe(true);
    expect(reworkCautions(['drill', 'flat file']).filter((one) => /dust mask/.test(one))).toHaveLength(1);
  });
});
