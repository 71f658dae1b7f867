import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { begun, exchanged, sameTexts, wanted } from '../../viewer/sheets/measure/draft.ts';
import { figure, rangeShown } from '../../viewer/sheets/measure/figures.ts';
import { nextReading, turnIsOver } from '../../viewer/sheets/measure/nextReading.ts';
import { paperFor } from '../../viewer/sheets/measure/paperFor.ts';
import { readingState } from '../../viewer/sheets/measure/readingState.ts';
import { spread } from '../../viewer/sheets/measure/spread.ts';
import { withPart, withSetting } from '../../viewer/sheets/measure/withSetting.ts';

const text = fc.stringMatching(/^[1-9]\.[0-9]{2}$/);

describe('draft', () => {
  test('a number is new unless one is to be corrected; a value entered once is always the one there is', () => {
    expect(begun('bar', ['1.60', 1.61], false)).toMatchObject({ slot: 2, text: '', original: undefined });
    expect(begun('bar', ['1.60', 1.61], false, 1)).toMatchObject({ slot: 1, text: '1.61', original: 1.61 });
    expect(begun('weight', ['7.4 kg'], true)).toMatchObject({ slot: 0, text: '7.4 kg' });
    expect(begun('weight', [], true)).toMatchObject({ slot: 0, text: '', original: undefined });
    expect(begun('bar', ['1.60'], false, 9).slot).toBe(1);
  });

  test('what cannot be read gives way to what stood there before', () => {
    const draft = { ...begun('bar', ['1.60'], false, 0), text: ' 1.6. ' };
    expect(wanted(draft, false)).toBe('1.60');
    expect(wanted({ ...draft, text: ' 1.65 ' }, true)).toBe('1.65');
    expect(wanted({ ...begun('bar', ['1.60'], false), text: '-' }, false)).toBeUndefined();
  });

  test('an exchange puts one text in the place of another and leaves all others, in their order', () => {
    fc.assert(
      fc.property(fc.array(text, { minLength: 1, maxLength: 6 }), fc.nat(5), text, (texts, k, to) => {
        const slot = k % texts.length;
        const from = texts[slot];
        expect(exchanged(texts, slot, from, to)).toEqual(texts.map((one, j) => (j === slot ? to : one)));
        expect(exchanged(texts, slot, from, undefined)).toEqual(texts.filter((_, j) => j !== slot));
        expect(exchanged(texts, texts.length, undefined, to)).toEqual([...texts, to]);
      }),
      { seed: 3 },
    );
  });

  test('two tabs that type into one reading at once lose nothing of either', () => {
    // Each tab types its number digit by digit; the exchanges of both happen on one list, in any order among them.
    const tab = text.map((number) => [number.slice(0, 1), number.slice(0, 3), number]);
    fc.assert(
      fc.property(
        fc.array(text, { maxLength: 3 }),
        tab,
        tab,
        fc.array(fc.boolean(), { minLength: 6 }),
        (base, mine, theirs, turns) => {
          fc.pre(new Set([...base, ...mine, ...theirs]).size === base.length + 6);
          let texts: readonly (string | number)[] = base;
          const at = { mine: 0, theirs: 0 };
          const step = (who: 'mine' | 'theirs', digits: readonly string[]) => {
            const k = at[who]++;
            if (k < 3) texts = exchanged(texts, base.length, digits[k - 1], digits[k]);
          };
          for (const first of turns) first ? step('mine', mine) : step('theirs', theirs);
          for (let k = 0; k < 3; k++) {
            step('mine', mine);
            step('theirs', theirs);
          }
          expect([...texts].sort()).toEqual([...base, mine[2], theirs[2]].sort());
        },
      ),
      { seed: 5 },
    );
  });

  test('texts are the same as the numbers of a file', () => {
    expect(sameTexts(['1.6', 2], [1.6, '2'])).toBe(true);
    expect(sameTexts(['1.6'], ['1.60'])).toBe(false);
    expect(sameTexts(['1.6'], ['1.6', '1.6'])).toBe(false);
  });
});

describe('where Enter goes on', () => {
  const set = (...taken: number[]) => taken.map((n, k) => ({ id: `r${k}`, taken: n, times: 3 }));

  test.each([
    { taken: [3, 0, 2], from: 'r0', to: 'r1', where: 'to the next in order' },
    { taken: [3, 3, 2], from: 'r0', to: 'r2', where: 'past those that are complete' },
    { taken: [2, 3, 3], from: 'r1', to: 'r0', where: 'round to one that was passed over' },
    { taken: [3, 3, 3], from: 'r1', to: null, where: 'nowhere when every reading is there' },
    { taken: [3, 0, 3], from: 'r1', to: null, where: 'nowhere when only this one lacks numbers' },
  ])('$taken from $from: $where', ({ taken, from, to }) => {
    expect(nextReading(set(...taken), from)).toBe(to);
  });

  test('on when the set has become complete, but not from one that is being added to', () => {
    expect(turnIsOver(2, 3, { wasComplete: false, single: false })).toBe(false);
    expect(turnIsOver(3, 3, { wasComplete: false, single: false })).toBe(true);
    expect(turnIsOver(4, 3, { wasComplete: true, single: false })).toBe(false);
    expect(turnIsOver(1, 3, { wasComplete: true, single: true })).toBe(true);
  });
});

test('the gravest state of a reading is the one shown; a likely nominal size is no doubt', () => {
  const remark = (kind: 'nominal' | 'outlier') => ({ kind, value: 4, expected: '', sentence: '' });
  const of = { taken: 3, times: 3, optional: false, refused: false, remarks: [remark('nominal')] };
  expect(readingState(of)).toBe('read');
  expect(readingState({ ...of, taken: 2 })).toBe('few');
  expect(readingState({ ...of, taken: 2, remarks: [remark('outlier')] })).toBe('doubtful');
  expect(readingState({ ...of, taken: 0, remarks: [], refused: true })).toBe('refused');
  expect(readingState({ ...of, taken: 0, remarks: [] })).toBe('missing');
  expect(readingState({ ...of, taken: 0, remarks: [], optional: true })).toBe('spared');
});

test('a spread is drawn in proportion, all of it on the bar', () => {
  const millimetres = fc.double({ min: 0.5, max: 150, noNaN: true });
  const deviation = fc.double({ min: -0.5, max: 0.5, noNaN: true });
  fc.assert(
    fc.property(
      millimetres,
      fc.array(deviation, { minLength: 1, maxLength: 8 }),
      fc.double({ min: 0.001, max: 0.3, noNaN: true }),
      (mean, deviations, U) => {
        const { ticks, doubt, span } = spread(
          deviations.map((d) => mean + d),
          mean,
          U,
        );
        for (const position of [...ticks, ...doubt]) {
          expect(position).toBeGreaterThan(0);
          expect(position).toBeLessThan(1);
        }
        expect((doubt[1] - doubt[0]) * span).toBeCloseTo(2 * U, 9);
        ticks.forEach((tick, k) => {
          expect((tick - 0.5) * span).toBeCloseTo(deviations[k]!, 9);
        });
      },
    ),
    { seed: 11 },
  );
  expect(spread([4], 4, 0).ticks).toEqual([0.5]);
});

describe('figures', () => {
  // The inch is 25.4 mm exactly: international yard and pound agreement of 1959.
  test('lengths in the unit of the job, everything else in its own', () => {
    expect(figure(3.175, 'mm', 'in', 0.01)).toBe('0.1250');
    expect(figure(4.01953, 'mm', 'mm', 0.0138)).toBe('4.020');
    expect(figure(7400, 'g', 'in', 30)).toBe('7400');
    expect(figure(4, '1', 'mm', 0)).toBe('4');
    expect(rangeShown(1.5, 12, 'mm', 'mm')).toBe('1.5 to 12 mm');
    expect(rangeShown(25.4, 50.8, 'mm', 'in')).toBe('1 to 2 in');
    expect(rangeShown(100, 30_000, 'g', 'in')).toBe('100 to 30000 g');
  });
});

describe('paper', () => {
  // CSS Values and Units 4, 6.2: 96 px to the inch, and so 1 px is 25.4 / 96 mm.
  test('is true to scale where the column is wide enough, and never narrower than the drawing needs', () => {
    expect(paperFor((200.1 / 25.4) * 96, false).width).toBe(200);
    expect(paperFor((204.9 / 25.4) * 96, false).width).toBe(200);
    expect(paperFor(300, true).width).toBe(90);
    expect(paperFor(0, true).width).toBe(90);
  });

  test('fields keep their size on the screen; on touch they leave 44 px and more (WCAG 2.2, 2.5.5)', () => {
    for (const width of [300, 360, 700, 1200]) {
      const { width: sheet, field } = paperFor(width, true);
      const pixels = field.map((mm) => (mm / sheet) * width);
      expect(pixels[0]).toBeCloseTo(66, 6);
      expect(pixels[1]).toBeGreaterThanOrEqual(44);
    }
  });
});

test('a setting that is emptied leaves nothing of itself in the job', () => {
  expect(withSetting({ zero: '0.01', name: 'mine' }, 'zero', '')).toEqual({ name: 'mine' });
  expect(withSetting({ zero: '0.01' }, 'zero', '')).toBeUndefined();
  expect(withSetting(undefined, 'zero', '0.02')).toEqual({ zero: '0.02' });
  const job: { family: string; sizes?: { arm: string } } = { family: 'peg', sizes: { arm: '1' } };
  expect(withPart(job, 'sizes', undefined)).toEqual({ family: 'peg' });
  expect(withPart(job, 'sizes', { arm: '2' })).toEqual({ family: 'peg', sizes: { arm: '2' } });
});
