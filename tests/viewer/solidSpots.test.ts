import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/check/finding.ts';
import { place, up } from '../../src/solid/placement.ts';
import type { Vec2, Vec3 } from '../../src/solid/vector.ts';
import { placeBalloons, spotsOf, whereabouts } from '../../viewer/solid/spots.ts';

const finding = (id: string, at: Vec3 | null): Finding => ({
  ...{ id, title: id, verdict: 'holds', value: null, limit: null, unit: 'mm', margin: null },
  ...{ because: '', source: '', remedy: '', at },
});

describe('spotsOf', () => {
  const onBed = { rotation: up.x.rotation, translation: [1, 2, 3] } as const;
  const there = (p: Vec3): Vec3 => place(onBed, p);

  it('brings findings from the bed to the part, numbered as in the list, those of one place together', () => {
    const spots = spotsOf(
      [
        finding('a', there([4, 5, 6])),
        finding('b', null),
        finding('c', there([0, 0, 0])),
        finding('d', there([4.1, 5, 6])),
      ],
      '',
      onBed,
    );
    expect(spots.map(({ findings }) => findings.map(({ number }) => number))).toEqual([[1, 4], [3]]);
    spots[0]!.at.forEach((value, k) => {
      expect(value).toBeCloseTo([4, 5, 6][k]!, 9);
    });
  });

  it('takes only those of its own part of a set', () => {
    const all = [
      finding('left.a', [0, 0, 0]),
      finding('right.a', [0, 0, 0]),
      finding('leftover.a', [0, 0, 0]),
    ];
    const numbers = spotsOf(all, 'left', onBed).flatMap(({ findings }) =>
      findings.map(({ number }) => number),
    );
    expect(numbers).toEqual([1]);
  });
});

describe('whereabouts', () => {
  it.each<[Vec3, string]>([
    [[9, 0, 0], 'bottom, front right'],
    [[1, 9, 9], 'top, back left'],
    [[5, 5, 5], 'middle'],
    [[5, 5, 9], 'top'],
    [[9, 5, 5], 'right'],
  ])('says where %j is', (at, words) => {
    expect(whereabouts(at, [0, 0, 0], [10, 10, 10])).toBe(words);
  });
});

describe('placeBalloons', () => {
  const spot = fc.tuple(fc.integer({ min: -200, max: 900 }), fc.integer({ min: -200, max: 900 }));
  const drawn = fc.array(fc.tuple(spot, fc.integer({ min: 32, max: 110 })), { minLength: 1, maxLength: 18 });

  it('sets none over another and all within the picture, wherever the spots are', () => {
    const picture: Vec2 = [360, 420];
    fc.assert(
      fc.property(drawn, (balloons) => {
        const sizes = balloons.map(([, wide]): Vec2 => [wide, 32]);
        const places = placeBalloons(
          balloons.map(([at]) => at as Vec2),
          sizes,
          picture,
        );
        places.forEach(({ at: [x, y] }, i) => {
          const [w, h] = sizes[i]!;
          expect(x - w / 2).toBeGreaterThanOrEqual(0);
          expect(x + w / 2).toBeLessThanOrEqual(picture[0]);
          expect(y - h / 2).toBeGreaterThanOrEqual(0);
          expect(y + h / 2).toBeLessThanOrEqual(picture[1]);
          for (let j = 0; j < i; j++) {
            const [p, q] = [places[j]!.at, sizes[j]!];
            const apart =
              Math.abs(p[0] - x) >= (w + q[0]) / 2 - 1e-6 || Math.abs(p[1] - y) >= (h + q[1]) / 2 - 1e-6;
            expect(apart).toBe(true);
          }
        });
      }),
      { seed: 7_112_026, numRuns: 300 },
    );
  });

  it('stands level with its spot where there is room', () => {
    const [one] = placeBalloons([[50, 200]], [[32, 32]], [400, 400]);
    expect(one!.at[1]).toBe(200);
  });
});
