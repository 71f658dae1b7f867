import { expect, test } from 'vitest';
import { bedFit } from '../../src/check/bedFit.ts';
import { block } from '../../src/solid/primitives.ts';
import { contextOf, only, withKernel } from './contextOf.ts';

withKernel();

const judge = (x: number, y: number, z: number) =>
  only(bedFit(contextOf(block([0, 0, 0], [x, y, z]), coarse)));
/** Thick layers: only the box matters here. */
const coarse = { printer: { layer: 2, firstLayer: 2, bed: { x: 120, y: 100, z: 80 } } };

test('names the axis with least to spare', () => {
  expect(judge(30, 70, 10)).toMatchObject({
    verdict: 'holds',
    value: 70,
    limit: 100,
    margin: 30,
    remedy: '',
  });
});

test('as large as the bed still fits, 0.1 mm more does not', () => {
  expect(judge(120, 100, 80)).toMatchObject({ verdict: 'holds', margin: 0 });
  const high = judge(20, 20, 80.1);
  expect(high.verdict).toBe('fails');
  expect(high.margin).toBeCloseTo(-0.1, 5);
  expect(high.because).toContain('too long along z');
});

test('fits only turned a quarter', () => {
  const found = judge(90, 110, 5);
  expect(found).toMatchObject({ verdict: 'caution', value: 110, limit: 100, margin: -10 });
  expect(found.remedy).toContain('quarter');
  expect(judge(110, 110, 5).verdict).toBe('fails');
});
