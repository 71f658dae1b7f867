import { describe, expect, test } from 'vitest';
import { bedContact } from '../../src/check/bedContact.ts';
import { block, cylinder } from '../../src/solid/primitives.ts';
import { type Shape, union } from '../../src/solid/shape.ts';
import { contextOf, numberOf, quarterTurn, withKernel } from './contextOf.ts';

withKernel();

function judge(shape: Shape, told = {}) {
  const [contact, tip] = bedContact(contextOf(shape, told));
  return { contact: contact!, tip: tip! };
}

describe('hold on the bed', () => {
  test.each([
    [2, 'fails'],
    [4, 'caution'],
    [6, 'holds'],
  ])('square foot of %d mm: %s', (side, verdict) => {
    const { contact } = judge(block([0, 0, 0], [side, side, 2]));
    expect(numberOf(contact)).toBeCloseTo(side * side, 5);
    expect(contact).toMatchObject({ id: 'contact', verdict, limit: 5, unit: 'mm2' });
  });

  test('a ball stands on the section of its first layer', () => {
    const ball = cylinder({ axis: 'x', diameter: 8, from: [0, 0, 0], length: 5, sense: 'shaft' });
    // A lying cylinder: chord at mid-height of the first layer, times its length.
    const chord = 2 * Math.sqrt(4 ** 2 - 3.9 ** 2);
    expect(Math.abs(numberOf(judge(ball).contact) - 5 * chord)).toBeLessThan(0.5);
  });
});

describe('tipping', () => {
  test.each([
    [8, 20, 'holds'],
    [4, 20, 'caution'],
    [2, 20, 'fails'],
  ])('post %d mm wide and %d mm high: %s', (side, height, verdict) => {
    const { tip } = judge(block([0, 0, 0], [side, side, height]));
    expect(numberOf(tip)).toBeCloseTo(side / height, 6);
    expect(tip).toMatchObject({ id: 'tip', verdict, limit: 1 / 8, unit: '1' });
    expect(tip.at).toEqual([side / 2, side / 2, height / 2].map((x) => expect.closeTo(x, 5)));
  });

  test('cone on its base: centre of gravity at a quarter of its height', () => {
    const cone = cylinder({
      axis: 'z',
      diameter: 10,
      endDiameter: 0.02,
      from: [0, 0, 0],
      length: 12,
      sense: 'shaft',
    });
    const { tip } = judge(cone);
    expect(tip.at![2]).toBeCloseTo(3, 1);
    // The first layer is cut 0.1 mm up, where the cone is 10 (1 - 0.1 / 12) across.
    expect(Math.abs(numberOf(tip) - (10 * (1 - 0.1 / 12)) / 12)).toBeLessThan(0.01);
  });

  test('cone on its tip: falls over, and hardly touches', () => {
    const top = cylinder({
      axis: 'z',
      diameter: 0.5,
      endDiameter: 10,
      from: [0, 0, 0],
      length: 12,
      sense: 'shaft',
    });
    const { contact, tip } = judge(top);
    expect(contact.verdict).toBe('fails');
    expect(tip.verdict).toBe('fails');
    expect(numberOf(tip)).toBeGreaterThan(0);
  });

  test('centre of gravity beside the foot', () => {
    const crane = union(block([0, 0, 0], [6, 6, 10]), block([6, 0, 8], [30, 6, 10]));
    // 360 mm3 at x = 3 and 288 mm3 at x = 18.
    const x = (360 * 3 + 288 * 18) / 648;
    const { tip } = judge(crane);
    expect(tip.verdict).toBe('fails');
    expect(numberOf(tip)).toBeCloseTo((2 * (6 - x)) / 10, 5);
    expect(tip.because).toContain(`${(x - 6).toFixed(2)} mm outside the foot`);
  });

  test('feet far apart count by the outline around them', () => {
    const bench = union(
      block([0, 0, 0], [2, 20, 10]),
      block([28, 0, 0], [30, 20, 10]),
      block([0, 0, 10], [30, 20, 12]),
    );
    expect(numberOf(judge(bench).tip)).toBeCloseTo(20 / 12, 5);
  });

  test('turned a quarter the same', () => {
    const shape = union(block([0, 0, 0], [5, 9, 3]), block([0, 0, 3], [3, 3, 14]));
    const [a, b] = [judge(shape), judge(shape, { turn: quarterTurn })];
    expect(numberOf(b.contact)).toBeCloseTo(numberOf(a.contact), 5);
    expect(numberOf(b.tip)).toBeCloseTo(numberOf(a.tip), 5);
  });
});
