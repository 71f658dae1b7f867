import { describe, expect, test } from 'vitest';
import { soundness } from '../../src/check/soundness.ts';
import { block, cylinder } from '../../src/solid/primitives.ts';
import { difference, moved, union } from '../../src/solid/shape.ts';
import { contextOf, only, withKernel } from './contextOf.ts';

withKernel();

const plate = block([0, 0, 0], [10, 10, 2]);
const drill = (x: number) => cylinder({ axis: 'z', diameter: 3, from: [x, 5, -1], length: 4, sense: 'bore' });

describe('soundness', () => {
  test('holds for one body with the holes its family names', () => {
    const found = only(soundness(contextOf(difference(plate, drill(3), drill(7)), { genus: 2 })));
    expect(found).toMatchObject({ id: 'sound', verdict: 'holds', value: 0, limit: 0 });
    expect(found.details).toMatchObject({ bodies: 1, 'holes through': 2 });
  });

  test('fails when a hole broke out', () => {
    const found = only(soundness(contextOf(plate, { genus: 1 })));
    expect(found).toMatchObject({ verdict: 'fails', value: 1, margin: -1 });
    expect(found.because).toBe('0 holes through it where there should be 1');
    expect(found.remedy).not.toBe('');
  });

  test('fails for two pieces', () => {
    const found = only(soundness(contextOf(union(plate, moved(plate, [20, 0, 0])))));
    expect(found).toMatchObject({ verdict: 'fails' });
    expect(found.because).toBe('it is 2 loose pieces, not one');
  });
});
