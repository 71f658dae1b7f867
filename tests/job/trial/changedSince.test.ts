import { describe, expect, test } from 'vitest';
import { jobHash } from '../../../src/job/jobHash.ts';
import type { Prepared } from '../../../src/job/prepare.ts';
import { changedSince, SHOWS } from '../../../src/job/trial/changedSince.ts';
import { openTrial } from '../../../src/job/trial/openTrial.ts';
import type { TrialRecord } from '../../../src/job/trialSchema.ts';
import { demo, type PlainJob, read } from '../demo.ts';

const first = read(demo());
const record = openTrial(first, '2026-12-03', jobHash(first.job));

/** The demo job, changed after its first print, which taught nothing. */
const changedTo = (change: (job: PlainJob) => void): Prepared =>
  read(demo((job) => Object.assign(job, { trials: [record] }) && change(job)));
const changes = (prepared: Prepared, of: TrialRecord = record) =>
  changedSince(prepared, of).filter(({ before, after: now }) => Math.abs(now - before) >= SHOWS);

describe('what changed since a print', () => {
  test('nothing where nothing did', () => {
    const all = changedSince(
      changedTo(() => undefined),
      record,
    );
    expect(all.map(({ id }) => id)).toEqual(Object.keys(record.sizes));
    expect(changes(changedTo(() => undefined))).toEqual([]);
    expect(all.every(({ because }) => because === undefined)).toBe(true);
  });

  test('a socket read 0.10 wider is drawn so much wider, and says so', () => {
    const wider = (text: string | number) => (Number(text) + 0.1).toFixed(2);
    const [width, ...others] = changes(
      changedTo((job) => {
        job.readings.socketWidth = job.readings.socketWidth!.map(wider);
      }),
    );
    expect(others).toEqual([]);
    expect(width?.id).toBe('socket.width');
    // Outer faces grow by the same, whatever the size: along x and y shrink is below 1 %.
    expect(width!.after - width!.before).toBeCloseTo(0.1, 2);
    expect(width?.because).toBe('the machine is read as 4.12 there now, it was 4.02');
  });

  test('another fit', () => {
    const [bar] = changes(
      changedTo((job) => {
        job.fits.bar = 'free';
      }),
    );
    expect(bar?.id).toBe('bar');
    expect(bar?.because).toBe('the clearance asked for is 0.30 .. 0.60 now, it was 0.10 .. 0.30');
    // From the middle of one window to the middle of the other.
    expect(bar!.after - bar!.before).toBeCloseTo(0.25, 2);
  });

  test('another printer', () => {
    const all = changes(
      changedTo((job) => {
        job.printer = { ...job.printer, name: 'printer 2', outerGrowth: { value: 0.2, u: 0.01 } };
      }),
    );
    expect(all.length).toBeGreaterThan(0);
    for (const { because } of all) expect(because).toContain('that print was drawn for printer 1, PETG');
  });

  test('what the print itself taught', () => {
    const tight: TrialRecord = { ...record, felt: { 'socket.width': 'tight' } };
    const all = changes(read(demo((job) => Object.assign(job, { trials: [tight] }))), tight);
    const width = all.find(({ id }) => id === 'socket.width');
    expect(width?.because).toMatch(/^felt tight: /);
    expect(width!.after).toBeLessThan(width!.before);
  });
});
