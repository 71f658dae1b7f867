import { describe, expect, it } from 'vitest';
import { windowBar } from '../../../src/output/report/windowBar.ts';
import { standing } from '../../../src/output/report/windowBarShape.ts';
import { all, readPage, withClass } from './readPage.ts';

/** Where things stand in a bar, in its own units. */
function seen(fit: Parameters<typeof windowBar>[0]) {
  const svg = readPage(windowBar(fit));
  const path = (name: string) => withClass(svg, name)[0]?.getAttribute('d') ?? '';
  const [near, far] = /M([\d.]+) 11H([\d.]+)/.exec(path('whisker'))!.slice(1).map(Number);
  const sides = [...path('frame-line').matchAll(/M([\d.]+) 3V19/g)].map(([, x]) => Number(x));
  const zero = /M([\d.]+) 0V22/.exec(path('zero'))?.[1];
  const sign = withClass(svg, 'sign')[0]!;
  const disc = all(svg, 'circle')[0];
  const middle = disc ? Number(disc.getAttribute('cx')) : undefined;
  const shape = disc ? 'disc' : sign.getAttribute('class')!.includes('cross') ? 'cross' : 'triangle';
  return {
    near: near!,
    far: far!,
    sides,
    zero: zero === undefined ? undefined : Number(zero),
    middle,
    shape,
  };
}

describe('windowBar', () => {
  it('is true to scale', () => {
    const { near, far, sides, zero, middle, shape } = seen({ clearance: 0.2, u: 0.03, window: [0.1, 0.3] });
    const [left, right] = sides as [number, number];
    const share = (x: number) => (x - left) / (right - left);
    // By hand: the window is 0.20 wide; 0.14, 0.20 and 0.26 lie at 20, 50 and 80 % of it, 0 half its width before it.
    expect(share(near)).toBeCloseTo(0.2, 3);
    expect(share(middle!)).toBeCloseTo(0.5, 3);
    expect(share(far)).toBeCloseTo(0.8, 3);
    expect(share(zero!)).toBeCloseTo(-0.5, 3);
    expect(shape).toBe('disc');
  });

  it.each([
    [0.2, 0.05, 'holds', 'disc'],
    [0.2, 0.051, 'caution', 'triangle'],
    [0.31, 0.001, 'fails', 'cross'],
    [0.09, 0.3, 'fails', 'cross'],
  ] as const)('tells %f give or take twice %f in 0.1 .. 0.3 by its shape', (clearance, u, sure, shape) => {
    const fit = { clearance, u, window: [0.1, 0.3] as const };
    expect(standing(fit)).toBe(sure);
    expect(seen(fit).shape).toBe(shape);
  });

  it('counts what ends on the end of its window as inside, whatever the rounding of sums', () => {
    expect(standing({ clearance: 0.3 - 1e-12, u: 0.1, window: [0.1, 0.5] })).toBe('holds');
    expect(standing({ clearance: 0.1 + 0.2, u: 0, window: [0.1, 0.3] })).toBe('holds');
  });

  it('keeps what lies far out within the picture', () => {
    const { near, far } = seen({ clearance: 5, u: 0.4, window: [0.1, 0.3] });
    expect(near).toBeLessThanOrEqual(131);
    expect(far).toBe(131);
  });

  it('draws no side where the window has no end', () => {
    const low = seen({ clearance: 0.2, u: 0.03, window: [0.05, Infinity] });
    expect(low.sides).toHaveLength(1);
    expect(low.near).toBeGreaterThan(low.sides[0]!);
    const high = seen({ clearance: 0.2, u: 0.03, window: [-Infinity, 0.4] });
    expect(high.sides).toHaveLength(1);
    expect(high.far).toBeLessThan(high.sides[0]!);
  });

  it('says in words what it shows', () => {
    const svg = readPage(windowBar({ clearance: 0.08, u: 0.0376, window: [0, 0.15] }));
    expect(svg.getAttribute('aria-label')).toBe(
      '0.08 mm, give or take 0.08, partly outside; window 0.00 .. 0.15 mm',
    );
  });
});
