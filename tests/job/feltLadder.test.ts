import { expect, it } from 'vitest';
import { feltClearance, feltShift } from '../../src/fit/felt.ts';
import { plan } from '../../src/job/plan.ts';
import type { LadderRecord } from '../../src/job/schema.ts';
import { demo, read } from './demo.ts';

const plain = plan(read(demo()));
const of = (planned: typeof plain, id: string) => planned.interfaces.find((one) => one.id === id)!;
const now = of(plain, 'socket.width');

/** A ladder of the socket's width as the demo's printer would have made it: seven rungs a fortieth apart. */
const record = (best: number): LadderRecord => ({
  date: '2026-11-22',
  printer: 'printer 1',
  material: 'PETG',
  layer: 0.2,
  rungs: Array.from({ length: 7 }, (_, k) => {
    const looser = (k - 3) * 0.025;
    return {
      drawn: { 'socket.width': now.drawn - looser / 0.998 },
      clearance: { 'socket.width': now.clearance + looser },
    };
  }),
  doubt: { u: 0.03, spread: 0.02 },
  window: { 'socket.width': [now.window.lo, now.window.hi] },
  aim: { 'socket.width': now.clearance },
  felt: { tight: [], right: [], loose: [], best },
});
const withLadder = (best: number, change: Partial<LadderRecord> = {}) =>
  plan(read(demo((job) => Object.assign(job, { ladders: { socket: { ...record(best), ...change } } }))));

it('the middle rung changes nothing but the doubt', () => {
  const felt = of(withLadder(4), 'socket.width');
  expect(felt.drawn).toBeCloseTo(now.drawn, 4);
  expect(felt.clearance).toBeCloseTo(now.clearance, 4);
  expect(felt.u).toBeLessThan(now.u);
  expect(felt.chance).toBeGreaterThan(now.chance);
});

it('a looser rung that felt right makes the next part looser, by what Bayes leaves of it', () => {
  const [tight, middle, loose] = [2, 4, 6].map((best) => withLadder(best));
  expect(of(loose!, 'socket.width').drawn).toBeLessThan(of(middle!, 'socket.width').drawn);
  expect(of(tight!, 'socket.width').drawn).toBeGreaterThan(of(middle!, 'socket.width').drawn);
  // The clearance that is aimed for is felt clearance: the same in all of them.
  for (const planned of [tight!, loose!]) {
    const one = of(planned, 'socket.width');
    expect(one.clearance).toBeCloseTo(now.clearance, 5);
    expect(feltClearance(record(planned === tight ? 2 : 6), 'socket.width')!.at(one.drawn)).toBeCloseTo(
      one.clearance,
      9,
    );
  }
  // Drawn smaller by the shift itself, over the scale: the plan has one way to be looser.
  const { shift } = feltShift(record(6));
  expect(of(loose!, 'socket.width').drawn - now.drawn).toBeCloseTo(shift / 0.998, 3);
});

it('the doubt of that interface is the ladder and the print, and nobody else is touched', () => {
  const planned = withLadder(5);
  const shares = planned.chance.shares['socket.width']!.map(({ id }) => id).sort();
  expect(shares).toEqual(['ladder:socket', 'printer:repeatability']);
  for (const { id, drawn } of plain.interfaces)
    if (id !== 'socket.width') expect(of(planned, id).drawn).toBeCloseTo(drawn, 9);
});

it.each([
  ['another printer', { printer: 'printer 2' }],
  ['another material', { material: 'PLA' }],
  ['another layer height', { layer: 0.16 }],
  ['no verdict yet', { felt: undefined }],
])('a ladder with %s says nothing', (_, change) => {
  expect(of(withLadder(6, change), 'socket.width').drawn).toBeCloseTo(now.drawn, 9);
});
