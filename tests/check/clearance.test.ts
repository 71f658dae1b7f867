import { describe, expect, it } from 'vitest';
import { clearance } from '../../src/check/clearance.ts';
import type { CheckContext, PlannedInterface } from '../../src/check/context.ts';
import { after, shift, up } from '../../src/solid/placement.ts';
import { printer } from '../printer/profile.ts';
import { planned } from './fittedContext.ts';

const onBed = after(shift([10, 20, 30]), up.x);

function judge(told: Partial<PlannedInterface>, calibrated: string | null = null) {
  const context: Partial<CheckContext> = {
    interfaces: [planned({ id: 'bar', name: 'bar in bore', kind: 'bore', host: 1.6, ...told })],
    printer: { ...printer(), calibrated },
    onBed,
  };
  const [finding] = clearance(context as CheckContext);
  return finding!;
}

const sliding = { lo: 0.1, hi: 0.3 };

describe('clearance', () => {
  it('holds inside the window when it is as good as sure', () => {
    const finding = judge({ drawn: 1.94, predicted: 1.8, window: sliding, chance: 0.97 });
    expect(finding).toMatchObject({
      id: 'clearance.bar',
      title: 'bar in bore',
      verdict: 'holds',
      remedy: '',
    });
    expect(finding.value).toBeCloseTo(0.2, 12);
    expect(finding.margin).toBeCloseTo(0.1, 12);
    expect(finding.unit).toBe('mm');
    expect(finding.because).toBe(
      'drawn 1.94 mm, prints at 1.800 mm on a machine of 1.600 mm: clearance 0.200 mm, 0.10 to 0.30 mm wanted; chance 97 %',
    );
  });

  it.each([
    [1.68, 0.1, -0.02, 'tight'],
    [1.95, 0.3, -0.05, 'loose'],
  ])('fails outside the window: printed %d mm', (predicted, limit, margin, word) => {
    const finding = judge({ predicted, window: sliding, chance: 0.3 });
    expect(finding).toMatchObject({ verdict: 'fails', limit });
    expect(finding.margin).toBeCloseTo(margin, 9);
    expect(finding.remedy).toContain(`too ${word}`);
  });

  it('counts the ends of the window in', () => {
    expect(judge({ host: 1.6, predicted: 1.7, window: sliding, chance: 0.95 }).verdict).toBe('holds');
    expect(judge({ host: 1.6, predicted: 1.6999, window: sliding, chance: 0.95 }).verdict).toBe('fails');
  });

  it('blames doubt, not the drawing, for a poor chance', () => {
    const unknown = judge({ predicted: 1.8, window: sliding, chance: 0.42 });
    expect(unknown.verdict).toBe('caution');
    expect(unknown.remedy).toMatch(/coupon.*Bench Ox/);
    const known = judge({ predicted: 1.8, window: sliding, chance: 0.89, u: 0.06 }, '2025-11-20');
    expect(known.verdict).toBe('caution');
    expect(known.remedy).toMatch(/three more times.*0\.06 mm/);
    expect(judge({ predicted: 1.8, window: sliding, chance: 0.9 }).verdict).toBe('holds');
  });

  it('reckons a post against its socket', () => {
    const tight = judge({ kind: 'post', host: 4, predicted: 4.1, window: { lo: 0, hi: 0.15 }, chance: 0.01 });
    expect(tight.value).toBeCloseTo(-0.1, 12);
    expect(tight).toMatchObject({ verdict: 'fails', limit: 0 });
  });

  it('holds one-sided windows against their finite end', () => {
    const finding = judge({ predicted: 2.6, window: { lo: 0.1, hi: Number.POSITIVE_INFINITY }, chance: 1 });
    expect(finding).toMatchObject({ verdict: 'holds', limit: 0.1 });
    expect(finding.margin).toBeCloseTo(0.9, 12);
    expect(finding.because).toContain('at least 0.10 mm wanted');
  });

  it('names whole layers where the size stands upright on the bed', () => {
    const told = { predicted: 1.65, window: sliding, chance: 0.1 };
    // With x up on the bed, a size across x comes in layers and one across y does not.
    expect(judge({ ...told, across: [1, 0, 0] }).remedy).toMatch(/whole layers/);
    expect(judge({ ...told, across: [0, 1, 0] }).remedy).not.toMatch(/layers/);
  });

  it('says where, in the coordinates of the STL', () => {
    // up.x turns (x, y, z) to (y, z, x).
    expect(judge({ at: [1, 2, 3] }).at).toEqual([12, 23, 31]);
  });
});
