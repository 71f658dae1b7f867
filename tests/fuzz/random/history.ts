import fc from 'fast-check';
import { aimOf, windowOf } from '../../../src/fit/classes.ts';
import { jobHash } from '../../../src/job/jobHash.ts';
import type { Prepared } from '../../../src/job/prepare.ts';
import { openTrial } from '../../../src/job/trial/openTrial.ts';
import type { AnyJob, ReadsJob } from './anyJob.ts';

const felt = fc.constantFrom('tight', 'right', 'loose', undefined, undefined);
const trial = fc.record({
  felt: fc.array(felt, { minLength: 6, maxLength: 6 }),
  off: fc.array(fc.option(fc.integer({ min: -25, max: 25 }), { nil: undefined }), {
    minLength: 6,
    maxLength: 6,
  }),
  broken: fc.constantFrom(undefined, ['arm of the mouth'], ['"it" <snapped>', 'post']),
  layer: fc.constantFrom(undefined, undefined, 0.3),
});
const ladder = fc.record({
  rungs: fc.integer({ min: 3, max: 15 }),
  step: fc.integer({ min: 1, max: 12 }),
  tight: fc.nat({ max: 6 }),
  right: fc.nat({ max: 4 }),
  best: fc.boolean(),
  mixed: fc.nat({ max: 9 }),
  u: fc.constantFrom(0, 0.01, 0.05, 0.3),
});

/** What came before: prints that were read and felt, ladders and what was said of them. */
export const anyHistory = fc.record({
  trials: fc.oneof(
    { weight: 2, arbitrary: fc.array(trial, { maxLength: 0 }) },
    { weight: 1, arbitrary: fc.array(trial, { maxLength: 3 }) },
  ),
  ladders: fc.oneof(
    { weight: 3, arbitrary: fc.array(ladder, { maxLength: 0 }) },
    { weight: 1, arbitrary: fc.array(ladder, { maxLength: 2 }) },
  ),
});
type History = typeof anyHistory extends fc.Arbitrary<infer T> ? T : never;

/** The job with a history, each record as it would have been written when it came. */
export function withHistory(job: AnyJob, { trials, ladders }: History, read: ReadsJob): AnyJob {
  const steps = [
    ...ladders.map((one, k) => (before: AnyJob) => withLadder(before, one, k, read)),
    ...trials.map((one) => (before: AnyJob) => withTrial(before, one, read)),
  ];
  let now = job;
  try {
    for (const step of steps) now = step(now);
  } catch {
    // A job that is refused has no history; one that breaks breaks again when it is made, where it is told of.
  }
  return now;
}

function withTrial(job: AnyJob, told: History['trials'][number], read: ReadsJob): AnyJob {
  const prepared = read(job);
  const record = openTrial(prepared, '2026-11-22', jobHash(prepared.job, prepared.family.model));
  const ids = Object.keys(record.sizes);
  const said = ids.flatMap((id, k) =>
    told.felt[k % 6] === undefined ? [] : [[id, told.felt[k % 6]!] as const],
  );
  const readings = ids.flatMap((id, k) => {
    const off = told.off[k % 6];
    const size = record.sizes[id]!.predicted + (off ?? 0) / 100;
    return off === undefined || size <= 0.05 ? [] : [[id, [`${size.toFixed(2)} mm`]] as const];
  });
  const trial = {
    ...record,
    ...(told.layer !== undefined && { layer: told.layer }),
    ...(readings.length > 0 && { inspected: { readings: Object.fromEntries(readings) } }),
    ...(said.length > 0 && { felt: Object.fromEntries(said) }),
    ...(told.broken && { broken: told.broken }),
  };
  return { ...job, trials: [...((job.trials as unknown[] | undefined) ?? []), trial] };
}

function withLadder(job: AnyJob, told: History['ladders'][number], k: number, read: ReadsJob): AnyJob {
  const prepared = read(job);
  const all = prepared.family.interfaces(prepared.values, {});
  const first = all[k % Math.max(1, all.length)];
  if (first === undefined) return job;
  const group = first.id.split('.')[0]!;
  const ids = all.filter(({ id }) => id === group || id.split('.')[0] === group);
  return {
    ...job,
    ladders: { ...(job.ladders as object | undefined), [group]: ladderRecord(prepared, ids, told) },
  };
}

function ladderRecord(
  prepared: Prepared,
  ids: ReturnType<Prepared['family']['interfaces']>,
  told: History['ladders'][number],
): object {
  const { printer, material, fits } = prepared;
  const end = (value: number): number | null => (Number.isFinite(value) ? value : null);
  const by = <T>(of: (one: (typeof ids)[number]) => T) =>
    Object.fromEntries(ids.map((one) => [one.id, of(one)]));
  const aim = by(({ id, fit }) => aimOf(fits[id] ?? fit));
  const rungs = Array.from({ length: told.rungs }, (_, n) => {
    const shift = (n - (told.rungs - 1) / 2) * (told.step / 100);
    return {
      clearance: by(({ id }) => aim[id]! + shift),
      drawn: by(
        ({ id, kind, host }) => host + (kind === 'post' || kind === 'rib' ? -1 : 1) * (aim[id]! + shift),
      ),
    };
  });
  const numbers = rungs.map((_, n) => n + 1);
  const [tight, right] = [numbers.slice(0, told.tight), numbers.slice(told.tight, told.tight + told.right)];
  const loose = numbers.slice(told.tight + told.right);
  const felt = told.best
    ? { tight: [], right: [], loose: [], best: 1 + (told.tight % told.rungs) }
    : told.mixed === 0
      ? { tight: loose, right, loose: tight }
      : { tight, right, loose };
  return {
    ...{ date: '2026-11-21', printer: printer.name, material: material.name, layer: printer.layer, rungs },
    doubt: { u: told.u, spread: printer.repeatability },
    window: by(({ id, fit }) => {
      const { lo, hi } = windowOf(fits[id] ?? fit);
      return [end(lo), end(hi)];
    }),
    ...{ aim, felt },
  };
}
