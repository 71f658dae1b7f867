import { describe, expect, it } from 'vitest';
import { measureSession } from '../../../src/cli/measure/session.ts';
import { looksOf } from '../../../src/cli/terminal.ts';
import { insideRound, outside } from '../../../src/family/reading.ts';
import type { Reading } from '../../../src/job/takenReading.ts';
import { defaultCallipers } from '../../../src/measure/index.ts';

const specs = {
  bar: outside('bar diameter', { from: 0.8, to: 4, typical: 1.6, tip: 'Across the bare wire.' }),
  bore: insideRound('bore in the plate', {
    from: 2,
    to: 12,
    typical: 5,
    times: 2,
    tip: 'Wiggle for the largest.',
  }),
  reach: outside('reach', { from: 5, to: 40, typical: 14, times: 1, tip: 'Hinge to end.' }),
};

const readings = (have: Partial<Record<keyof typeof specs, readonly string[]>> = {}): readonly Reading[] =>
  Object.entries(specs).map(([id, spec]) => ({ id, spec, texts: have[id as keyof typeof specs] ?? [] }));

interface Given {
  readonly have?: Parameters<typeof readings>[0];
  readonly again?: boolean;
  readonly unit?: 'mm' | 'in';
}

/** A session fed with lines; what it said, asked and stored. */
async function session(lines: readonly string[], { have = {}, again = false, unit = 'mm' }: Given = {}) {
  const left = [...lines];
  const said: string[] = [];
  const asked: string[] = [];
  const stored: string[] = [];
  const taken = await measureSession(readings(have), {
    again,
    bench: { unit, callipers: defaultCallipers },
    looks: looksOf({ isTTY: false } as NodeJS.WriteStream),
    asker: {
      async ask(prompt) {
        asked.push(prompt.trim());
        return left.shift() ?? null;
      },
    },
    store: {
      append: async (id, text) => void stored.push(`${id} + ${text}`),
      drop: async (id, index) => void stored.push(`${id} - ${index + 1}`),
    },
    say: (line) => said.push(line),
    ring: () => said.push('ring'),
  });
  return { said, asked, stored, left, texts: Object.fromEntries(taken.map(({ id, texts }) => [id, texts])) };
}

it('needs nothing but numbers and Enter, and takes each set in turn', async () => {
  const { texts, asked, stored, left } = await session([
    '1.60',
    '1,61',
    '0.063in',
    '5.02',
    '5.01',
    '14.3',
    'unread',
  ]);
  expect(texts).toEqual({ bar: ['1.60', '1,61', '0.063in'], bore: ['5.02', '5.01'], reach: ['14.3'] });
  expect(asked).toEqual(['1 of 3 >', '2 of 3 >', '3 of 3 >', '1 of 2 >', '2 of 2 >', '1 of 1 >']);
  expect(stored).toHaveLength(6);
  expect(left).toEqual(['unread']);
});

it('says what to measure, with which jaws, between which sizes', async () => {
  const { said } = await session([]);
  expect(said.join('\n')).toContain('1 of 3  BAR DIAMETER  large jaws, around it, 0.8 to 4 mm');
  expect(said.join('\n')).toContain('Across the bare wire.');
});

it('explains its words once, in one line', async () => {
  const { said } = await session(['skip', 'skip', 'skip']);
  const lines = said.filter((line) => line.includes('quit'));
  expect(lines).toHaveLength(1);
  for (const word of ['back', 'skip', 'drop', 'quit']) expect(lines[0]).toContain(word);
});

it('stores a number before it asks for the next', async () => {
  const order: string[] = [];
  const left = ['1.6', '1.6'];
  await measureSession(readings(), {
    again: false,
    bench: { unit: 'mm', callipers: defaultCallipers },
    looks: looksOf({ isTTY: false } as NodeJS.WriteStream),
    asker: {
      async ask() {
        order.push('ask');
        return left.shift() ?? null;
      },
    },
    store: {
      async append(_, text) {
        await new Promise((resolve) => setTimeout(resolve, 5));
        order.push(`stored ${text}`);
      },
      drop: async () => {},
    },
    say: () => {},
    ring: () => {},
  });
  expect(order).toEqual(['ask', 'stored 1.6', 'ask', 'stored 1.6', 'ask']);
});

describe('a line that is no reading', () => {
  it.each([
    ['abc', 'does not begin with a number'],
    ['bakc', 'does not begin with a number'],
    ['1,234.5', 'comma and a point'],
    ['1/8', 'fraction without a unit'],
    ['0', 'not above 0'],
    ['-1.6', 'below 0'],
    ['NaN', 'no finite number'],
    ['1e9', 'exponent'],
    ['9', 'above the plausible range'],
    ['999999999', 'longer than 1000 mm'],
    ['40.64', 'millimetres were likely taken for inches'],
    ['1 2', 'more than one number'],
    ['1.6 1.7', 'more than one decimal sign'],
    ['x'.repeat(5000), 'more than 40 characters'],
  ])('%j is refused in one line that says why, and asked again', async (line, why) => {
    const { said, asked, stored, texts } = await session(['1.6', line, '1.61']);
    const refusals = said.filter((each) => each.startsWith('   X  '));
    expect(refusals).toHaveLength(1);
    expect(refusals[0]).toContain(why);
    expect(refusals[0]!.length).toBeLessThan(260);
    expect(asked).toEqual(['1 of 3 >', '2 of 3 >', '2 of 3 >', '3 of 3 >']);
    expect(stored).toEqual(['bar + 1.6', 'bar + 1.61']);
    expect(texts.bar).toEqual(['1.6', '1.61']);
  });
});

describe('the words', () => {
  it.each(['', '   ', 'skip', ' SKIP '])('%j goes on to the next reading', async (word) => {
    const { texts } = await session(['1.6', word, '5', 'quit']);
    expect(texts).toEqual({ bar: ['1.6'], bore: ['5'], reach: [] });
  });

  it('back goes to the reading before, takes one more, and goes on', async () => {
    const { texts, asked } = await session(['1.6', '1.61', '1.60', 'back', '1.62', '5.0', '5.01', '14']);
    expect(texts).toEqual({ bar: ['1.6', '1.61', '1.60', '1.62'], bore: ['5.0', '5.01'], reach: ['14'] });
    expect(asked[4]).toBe('4 of 4 >');
  });

  it('back and drop put right the last number of a set that was complete', async () => {
    const { texts, stored } = await session(['1.6', '1.61', '3.9', 'back', 'drop', '1.60', '5.0']);
    expect(texts).toMatchObject({ bar: ['1.6', '1.61', '1.60'], bore: ['5.0'] });
    expect(stored).toContain('bar - 3');
  });

  it('drop takes numbers back one by one, as far as there are any', async () => {
    const { texts, stored, said } = await session(['1.6', '1.7', 'drop', 'drop', 'drop', '1.65', 'quit']);
    expect(texts.bar).toEqual(['1.65']);
    expect(stored).toEqual(['bar + 1.6', 'bar + 1.7', 'bar - 2', 'bar - 1', 'bar + 1.65']);
    expect(said.filter((line) => line.includes('nothing to take back'))).toHaveLength(1);
  });

  it('drop with a number takes back that one, as a doubt about it says', async () => {
    const { texts, said, stored } = await session(['1.60', '1.95', '1.61', 'back', 'drop 2', '1.62', '5']);
    expect(texts).toMatchObject({ bar: ['1.60', '1.61', '1.62'], bore: ['5'] });
    expect(stored).toContain('bar - 2');
    expect(said).toContain('      if it was a slip: back, then drop 2');
  });

  it.each(['drop 0', 'drop 3', 'drop 99'])(
    '%j takes nothing back where there is no such number',
    async (line) => {
      const { texts, said } = await session(['1.6', '1.61', line]);
      expect(texts.bar).toEqual(['1.6', '1.61']);
      expect(said.filter((each) => each.startsWith('   X  '))).toHaveLength(1);
    },
  );

  it('back at the first reading stays there', async () => {
    const { texts } = await session(['back', '1.6', 'quit']);
    expect(texts.bar).toEqual(['1.6']);
  });

  it('quit ends at once', async () => {
    const { left, texts } = await session(['1.6', 'quit', '1.7']);
    expect(left).toEqual(['1.7']);
    expect(texts.bar).toEqual(['1.6']);
  });
});

describe('what was read before', () => {
  it('is passed over where a set is complete, and gone on with where it is not', async () => {
    const { texts, asked } = await session(['5.01', '14'], {
      have: { bar: ['1.6', '1.6', '1.6'], bore: ['5'] },
    });
    expect(texts).toEqual({ bar: ['1.6', '1.6', '1.6'], bore: ['5', '5.01'], reach: ['14'] });
    expect(asked).toEqual(['2 of 2 >', '1 of 1 >']);
  });

  it('is left alone when everything is there', async () => {
    const { asked, said } = await session(['9'], {
      have: { bar: ['1', '1', '1'], bore: ['5', '5'], reach: ['14'] },
    });
    expect([...asked, ...said]).toEqual([]);
  });

  it('is added to when all is taken again', async () => {
    const { texts } = await session(['1.62', '1.61', '1.63', 'quit'], {
      have: { bar: ['1.6', '1.6', '1.6'] },
      again: true,
    });
    expect(texts.bar).toEqual(['1.6', '1.6', '1.6', '1.62', '1.61', '1.63']);
  });
});

describe('what it says to a number', () => {
  it('is the length in mm, whatever unit was typed', async () => {
    const { said } = await session(['3/64 in']);
    // 3/64 in is 1.190625 mm exactly: 25.4 mm an inch, ISO 80000-3:2019.
    expect(said.at(-1)).toContain('= 1.191 mm');
  });

  it('follows the unit of the job', async () => {
    const { said } = await session(['0.063'], { unit: 'in' });
    expect(said.at(-1)).toContain('= 1.600 mm');
  });

  it('is the mean with its uncertainty and the spread, from the second on', async () => {
    const { said } = await session(['1.60', '1.62']);
    const line = said.at(-1)!;
    expect(line).toMatch(/= 1\.620 mm {3}mean 1\.610 \+- 0\.\d{3} mm {3}spread 0\.020 mm/);
  });

  it('is a doubt about an outlier, raised once', async () => {
    const { said } = await session(['1.60', '1.61', '1.95', 'back', '1.60']);
    expect(said.filter((line) => line.includes('/!\\') && line.includes('1.95 mm'))).toHaveLength(2);
    // Once when it was read, once more when that reading was come back to.
    const again = await session(['1.60', '1.61', '1.95']);
    expect(again.said.filter((line) => line.includes('/!\\'))).toHaveLength(1);
  });

  it('is a doubt about a unit slip between two readings that are both plausible', async () => {
    const spec = outside('plate', { from: 0.5, to: 100, typical: 10, times: 2, tip: 'Thickness.' });
    const said: string[] = [];
    const left = ['2.00', '50.8'];
    await measureSession([{ id: 'plate', spec, texts: [] }], {
      again: false,
      bench: { unit: 'mm', callipers: defaultCallipers },
      looks: looksOf({ isTTY: false } as NodeJS.WriteStream),
      asker: { ask: async () => left.shift() ?? null },
      store: { append: async () => {}, drop: async () => {} },
      say: (line) => said.push(line),
      ring: () => {},
    });
    expect(said.join('\n')).toContain('millimetres were likely taken for inches (it would be 2 mm)');
  });
});
