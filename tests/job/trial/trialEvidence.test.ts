import { describe, expect, it } from 'vitest';
import { plan } from '../../../src/job/plan.ts';
import type { Prepared } from '../../../src/job/prepare.ts';
import { readJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import { openTrial } from '../../../src/job/trial/openTrial.ts';
import { trialEvidence } from '../../../src/job/trial/trialEvidence.ts';
import type { TrialRecord } from '../../../src/job/trialSchema.ts';
import { defaultPrinter } from '../../../src/printer/defaultPrinter.ts';
import { told } from '../../simulation/callipers.ts';
import hinge from '../../simulation/hinge.ts';
import { randomness } from '../../simulation/randomness.ts';

// Bayes by brute force: printers, machines, callipers and prints drawn from what is believed of them, each weighted by how
// likely it makes what was read and felt (importance weighting of plain draws; JCGM 101:2008, clause 7, draws so).

const job: JobFile = {
  fettle: 1,
  family: 'hinge',
  callipers: told,
  readings: { socket: [5.02, 5.0, 5.01, 5.01, 5.0], shaft: [4.0, 4.01, 3.99, 4.0, 4.02] },
};
const prepared = (trials: readonly TrialRecord[] = []): Prepared =>
  readJob(JSON.stringify(trials.length > 0 ? { ...job, trials } : job), [hinge]);
const base = prepared();
const opened = openTrial(base, '2026-11-26', '0'.repeat(64));
const [lo, hi] = [0, 0.15];

/** Shift of the post's clearance, mm, by draws. Nothing of the project is used but the numbers of its profile and the plain
 *  formula of a post along x. */
function drawn(came: { readonly read?: number; readonly felt?: 'tight' | 'right' | 'loose' }) {
  const random = randomness(20261126);
  const size = opened.sizes.socket!.drawn;
  const expected = size * defaultPrinter.scale.x.value + 2 * defaultPrinter.outerGrowth.value;
  const socket = base.dimensions.socket!.value;
  const own = base.dimensions.socket!.contributors.find(({ id }) => id === 'reading:socket')!;
  const hand = own.deviation ?? own.u * Math.sqrt(own.dof / (own.dof - 2));
  const step = 0.01 / Math.sqrt(12);
  const range = (half: number) => random.uniform(-half, half);
  let [weight, squares] = [0, 0];
  const sums = { shift: [0, 0], printer: [0, 0], machine: [0, 0] };
  for (let k = 0; k < 1_000_000; k++) {
    const calliper = range(0.03);
    const printer =
      size * range(defaultPrinter.scale.x.u * Math.sqrt(3)) +
      2 * range(defaultPrinter.outerGrowth.u * Math.sqrt(3));
    const printed = expected + printer + random.normal(defaultPrinter.repeatability);
    const machine = calliper + random.normal(hand) + range(step * Math.sqrt(3));
    const clearance = socket + machine - printed;
    if (came.felt === 'tight' && clearance >= lo) continue;
    if (came.felt === 'right' && (clearance < lo || clearance > hi)) continue;
    if (came.felt === 'loose' && clearance <= hi) continue;
    // Three readings; the hand scatters by 0.02 and is known by ten readings before, the display steps by 0.01.
    const w =
      came.read === undefined ? 1 : Math.exp(-((came.read + calliper - printed) ** 2) / 2 / readingVariance);
    weight += w;
    squares += w * w;
    for (const [sum, value] of [
      [sums.shift, machine - printer],
      [sums.printer, -printer],
      [sums.machine, machine],
    ] as const) {
      sum[0]! += w * value;
      sum[1]! += w * value ** 2;
    }
  }
  const of = ([first, second]: readonly number[]) => {
    const mean = first! / weight;
    return { mean, u: Math.sqrt(second! / weight - mean ** 2) };
  };
  return {
    effective: weight ** 2 / squares,
    ...{ shift: of(sums.shift), printer: of(sums.printer), machine: of(sums.machine) },
  };
}

/** Of the mean of three readings that agree: s^2 = 10 s0^2 / 12 over three, by 12 degrees of freedom, and the step. */
const readingVariance = ((10 * 0.02 ** 2) / 12 / 3) * (12 / 10) + 0.01 ** 2 / 12;

describe('what a trial says of a printer nobody has measured', () => {
  const expected = opened.sizes.socket!.predicted;
  const cases = [
    ['felt tight', {}, 'tight'],
    ['felt loose', {}, 'loose'],
    ['felt right', {}, 'right'],
    ['read 0.10 large', { by: 0.1 }, undefined],
    ['read 0.10 large and felt tight', { by: 0.1 }, 'tight'],
    ['read hardly large and felt tight: the machine has its share', { by: 0.04 }, 'tight'],
  ] as const;
  it.each(cases)('%s', (_, { by }: { by?: number }, felt) => {
    const text = by === undefined ? undefined : (expected + by).toFixed(2);
    const record: TrialRecord = {
      ...opened,
      ...(text !== undefined && { inspected: { readings: { socket: [text, text, text] } } }),
      ...(felt !== undefined && { felt: { socket: felt } }),
    };
    const truth = drawn({
      ...(text !== undefined && { read: Number(text) }),
      ...(felt !== undefined && { felt }),
    });
    const found = trialEvidence(base, record, 'socket')!;
    expect(truth.effective).toBeGreaterThan(2000);
    const noise = 4 / Math.sqrt(truth.effective);
    for (const [part, { mean, u }] of [
      [truth.shift, { mean: found.shift, u: found.u }],
      [truth.printer, found.printer],
      [truth.machine, found.machine],
    ] as const) {
      // 0.12 of a deviation is what a normal law can do for a range that is cut off.
      expect(Math.abs(mean - part.mean) / part.u).toBeLessThan(0.12 + noise);
      expect(Math.abs(u / part.u - 1)).toBeLessThan(0.12 + noise);
    }
  });
});

describe('the next plan', () => {
  const of = (one: Prepared, id: string) => plan(one).interfaces.find((each) => each.id === id)!;

  it('aims at the middle of the window by what is believed now', () => {
    const record: TrialRecord = { ...opened, felt: { socket: 'tight' } };
    const { shift, u } = trialEvidence(base, record, 'socket')!;
    const [before, after] = [of(base, 'socket'), of(prepared([record]), 'socket')];
    expect(after.clearance).toBeCloseTo(0.075, 6);
    // Drawn smaller by the shift, over the scale; the shift itself grows a little with the size.
    expect(before.drawn - after.drawn).toBeCloseTo(-shift / defaultPrinter.scale.x.value, 3);
    expect(after.u).toBeCloseTo(Math.hypot(u, defaultPrinter.repeatability), 3);
    expect(after.chance).toBeGreaterThan(before.chance);
  });

  it('has two trials add up, each starting from what the first left', () => {
    const first: TrialRecord = { ...opened, felt: { socket: 'tight' } };
    const second: TrialRecord = {
      ...openTrial(prepared([first]), '2026-11-27', '1'.repeat(64)),
      felt: { socket: 'tight' },
    };
    const [none, one, two] = [[], [first], [first, second]].map((trials) => of(prepared(trials), 'socket'));
    expect(one!.drawn).toBeLessThan(none!.drawn - 0.05);
    expect(two!.drawn).toBeLessThan(one!.drawn - 0.02);
    expect(two!.u).toBeLessThan(one!.u);
    // What was seen is seen, in whatever order.
    const other = of(prepared([second, first]), 'socket');
    expect(Math.abs(other.drawn - two!.drawn)).toBeLessThan(0.1 * two!.u);
  });

  it('counts a machine that was read anew as it reads now', () => {
    const record: TrialRecord = { ...opened, felt: { socket: 'tight' } };
    // The socket is 0.10 narrower than was read the first time: that explains the fit, and the printer is cleared.
    const reread = readJob(
      JSON.stringify({ ...job, readings: { ...job.readings, socket: Array(5).fill(4.9) }, trials: [record] }),
      [hinge],
    );
    const before = trialEvidence(base, record, 'socket')!;
    const after = trialEvidence(reread, record, 'socket')!;
    expect(Math.abs(after.printer.mean)).toBeLessThan(0.7 * Math.abs(before.printer.mean));
    expect(after.shift).toBeGreaterThan(before.shift);
  });
});
