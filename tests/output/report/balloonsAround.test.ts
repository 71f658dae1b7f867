import { describe, expect, it } from 'vitest';
import { balloonsAround } from '../../../src/output/report/balloonsAround.ts';
import { all, readPage, textOf, withClass } from './readPage.ts';

const sheet = { width: 800, height: 600, enlarged: 1 };

function seen(places: Parameters<typeof balloonsAround>[0], on = sheet) {
  const svg = readPage(`<svg>${balloonsAround(places, on)}</svg>`);
  const at = (name: string) =>
    withClass(svg, name).map((one) => ['cx', 'cy', 'r'].map((of) => Number(one.getAttribute(of))));
  return { balloons: at('balloon'), dots: at('place'), numbers: all(svg, 'text').map(textOf) };
}

describe('balloonsAround', () => {
  const crowd = [0, 1, 2, 3, 4, 5, 6, 7].map((k) => ({
    number: k + 1,
    at: [410 + k, 300 + k / 10] as const,
  }));

  it.each([1, 1.7])('keeps them apart and on the picture, %f times as large', (enlarged) => {
    const { balloons, numbers } = seen(crowd, { ...sheet, enlarged });
    expect(numbers).toHaveLength(8);
    for (const [x, y, r] of balloons as [number, number, number][]) {
      expect(Math.min(x, y, 800 - x, 600 - y)).toBeGreaterThanOrEqual(r);
      for (const [u, v] of balloons as [number, number, number][])
        if (u !== x || v !== y) expect(Math.hypot(u - x, v - y)).toBeGreaterThan(1.5 * r);
    }
  });

  it('keeps those at the rim on the picture', () => {
    const { balloons } = seen([0, 1, 2].map((k) => ({ number: k + 1, at: [700, 2 * k] as const })));
    for (const [, y, r] of balloons as [number, number, number][]) expect(y).toBeGreaterThan(r);
  });

  it('marks each place and stands on its side', () => {
    const { balloons, dots } = seen([
      { number: 3, at: [100, 200] },
      { number: 7, at: [600, 50] },
    ]);
    expect(dots.map(([x, y]) => [x, y])).toEqual([
      [100, 200],
      [600, 50],
    ]);
    expect(balloons[0]![0]).toBeLessThan(100);
    expect(balloons[1]![0]).toBeGreaterThan(600);
  });

  it('crosses no leaders of one side: the higher place has the higher balloon', () => {
    const { balloons, numbers } = seen([
      { number: 1, at: [500, 320] },
      { number: 2, at: [500, 300] },
    ]);
    const height = Object.fromEntries(numbers.map((number, k) => [number, balloons[k]![1]!]));
    expect(height['2']!).toBeLessThan(height['1']!);
  });
});
