import { signal } from '@preact/signals';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nameFault } from '../../src/archive/nameFault.ts';
import { LARGEST_MODEL } from '../../src/job/largestModel.ts';
import type { RefitSheet } from '../../src/job/refitSheet.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { behindFor, heldBy, layAlong, rowsFor, ruleMarks } from '../../viewer/donor/layAlong.ts';
import { plainName, takeModel } from '../../viewer/donor/takeModel.ts';
import { stretchNames } from '../../viewer/donor/words.ts';
import type { Drawer } from '../../viewer/drawer/drawer.ts';

const seed = 20_071;

describe('the name of a model', () => {
  it('stays where every system can have a file of it', () => {
    expect(plainName('foot of a Halden 80.STL')).toBe('foot of a Halden 80.STL');
  });

  it('always becomes one that a bundle takes, with the same kind of ending', () => {
    const any = fc.tuple(
      fc.string({ unit: 'binary', maxLength: 150 }),
      fc.constantFrom('.stl', '.STL', '.3mf'),
    );
    fc.assert(
      fc.property(any, ([name, ending]) => {
        const plain = plainName(name + ending);
        expect(nameFault(plain)).toBeUndefined();
        expect(plain.toLowerCase().endsWith(ending.toLowerCase())).toBe(true);
      }),
      { seed, numRuns: 500 },
    );
  });

  it.each([
    ['../../up.stl', 'up.stl'],
    ['C:\\parts\\foot.stl', 'foot.stl'],
    ['con.stl', 'model.stl'],
    ['<b>.3mf', 'b.3mf'],
  ])('%s becomes %s', (given, plain) => {
    expect(plainName(given)).toBe(plain);
  });
});

describe('a part lying along its rule', () => {
  it('keeps its low end and stays in the picture however far it is pulled, and as large as it was for a little', () => {
    const one = fc.record({
      now: fc.double({ min: 2, max: 400, noNaN: true }),
      high: fc.double({ min: 1, max: 200, noNaN: true }),
      width: fc.integer({ min: 320, max: 1400 }),
      times: fc.double({ min: 0.1, max: 40, noNaN: true }),
    });
    let shrunk = 0;
    fc.assert(
      fc.property(one, ({ now, high, width, times }) => {
        const sheet = {
          picture: { low: 0, high },
          axes: [{ now, low: -3 }],
          shown: 0,
        } as unknown as RefitSheet;
        const [base, pulled] = [layAlong(sheet, width), layAlong(sheet, width, now * times)];
        expect([pulled.left, pulled.low]).toEqual([base.left, -3]);
        expect(pulled.left).toBeGreaterThanOrEqual(16);
        const end = pulled.left + now * times * pulled.scale + behindFor(now * Math.max(1, times));
        expect(end).toBeLessThanOrEqual(width + 1e-6);
        if (times <= 1.03) expect(pulled).toEqual(base);
        if (pulled.scale < base.scale) shrunk++;
      }),
      { seed, numRuns: 300 },
    );
    expect(shrunk).toBeGreaterThan(100);
  });
});

describe('dimension lines beneath a part', () => {
  it('never lie over one another in a row', () => {
    const place = fc.record({
      from: fc.integer({ max: 800, min: 0 }),
      wide: fc.integer({ min: 1, max: 300 }),
    });
    fc.assert(
      fc.property(fc.array(place, { maxLength: 12 }), (list) => {
        const places = list
          .map(({ from, wide }) => ({ from, to: from + wide }))
          .sort((a, b) => a.from - b.from);
        const rows = rowsFor(places);
        for (const [k, a] of places.entries())
          for (const [n, b] of places.entries())
            if (k < n && rows[k] === rows[n]) expect(b.from).toBeGreaterThanOrEqual(a.to);
        // No more rows than lines that lie over one level.
        const most = Math.max(
          0,
          ...places.map(({ from }) => places.filter((one) => one.from <= from && one.to > from).length),
        );
        expect(new Set(rows).size).toBeLessThanOrEqual(most);
      }),
      { seed, numRuns: 300 },
    );
  });
});

describe('the rule', () => {
  it('has numbers of the part itself, also below nothing', () => {
    const marks = ruleMarks(-30, 60, 10);
    expect(marks.filter(({ isLong }) => isLong).map(({ mm }) => mm)).toEqual(
      Array.from({ length: 13 }, (_, k) => -30 + 5 * k),
    );
    expect(marks.every(({ mm }) => mm >= -30 && mm <= 30)).toBe(true);
  });

  it('begins between two marks where the part does', () => {
    expect(ruleMarks(0.5, 3, 20).map(({ mm }) => mm)).toEqual([0.5, 1, 1.5, 2, 2.5, 3, 3.5]);
  });
});

describe('a handle', () => {
  it('moves in tenths and leaves what must be left', () => {
    expect(heldBy(1.234, 5)).toBe(1.2);
    expect(heldBy(-9, 5.8)).toBe(-5.8);
    expect(heldBy(-9, 5.8049)).toBe(-5.8);
  });
});

describe('letters of stretches', () => {
  const span = (length: number, partner: number | null = null, distorts: readonly string[] = []) => ({
    ...{ length, partner, distorts },
  });

  it('run from the low end; a mirror image has the letter of its twin', () => {
    const names = stretchNames([span(3, 3), span(5, 2), span(5, 1), span(3, 0)]);
    expect([...names].sort(([a], [b]) => a - b)).toEqual([
      [0, 'A'],
      [1, 'B'],
      [2, 'B′'],
      [3, 'A′'],
    ]);
  });

  it('go to the longest, and to those that spoil a bore only where nothing else is', () => {
    expect([...stretchNames([span(1), span(9), span(5)], 2).keys()]).toEqual([1, 2]);
    expect([...stretchNames([span(9, null, ['bore1']), span(1)]).keys()]).toEqual([1]);
    expect([...stretchNames([span(9, null, ['bore1'])]).keys()]).toEqual([0]);
  });
});

/** A drawer that notes what is done to it, on a bench whose worker answers this. */
function drawerWith(answer: () => unknown, problems: readonly { readonly code: string }[] = []) {
  const done: string[] = [];
  const job: JobFile = { fettle: 1, family: 'donor', donor: { file: 'old name.stl', changes: [] } };
  const drawer = {
    told: signal(null),
    isOut: signal(true),
    bench: {
      job: signal(job),
      outcome: signal(problems.length > 0 ? { kind: 'refused', problems } : null),
      spine: {
        ask: async () => answer(),
        restart: () => done.push('worked again'),
      },
    },
    keepModel: async (name: string, bytes: Uint8Array) => done.push(`kept ${name}, ${bytes.length} bytes`),
    addRefit: async (added: JobFile, model: { readonly name: string }) =>
      done.push(`job ${Object.keys(added.readings ?? {}).join(' ')} of ${model.name}`),
  };
  return { drawer: drawer as unknown as Drawer, told: drawer.told, done };
}

describe('a model that is dropped', () => {
  const found = { bores: [{ id: 'bore1' }], posts: [{ id: 'post1' }] };

  it('becomes a job with a place for each reading', async () => {
    const { drawer, done } = drawerWith(() => found);
    await takeModel(drawer, 'foot.stl', new Uint8Array(9));
    expect(done).toEqual(['job bore1 post1 lengthX lengthY lengthZ of foot.stl']);
  });

  it('is the one that the job lacks, under the name the job has for it', async () => {
    const { drawer, done } = drawerWith(() => found, [{ code: 'model_missing' }]);
    await takeModel(drawer, 'foot.stl', new Uint8Array(9));
    expect(done).toEqual(['kept old name.stl, 9 bytes', 'worked again']);
  });

  it('changes nothing where it cannot be used, and says why in one line', async () => {
    const problem = { code: 'donor_empty', field: '', value: 'no triangle', allowed: 'a surface' };
    const { drawer, told, done } = drawerWith(() => ({ kind: 'refused', problems: [problem] }));
    await takeModel(drawer, 'foot.stl', new Uint8Array(9));
    expect(done).toEqual([]);
    expect(told.value).toEqual({ kind: 'refused', lines: ['foot.stl: no triangle - allowed: a surface'] });
  });

  it('changes nothing where it was stopped', async () => {
    const { drawer, told, done } = drawerWith(() => {
      throw new Error('stopped');
    });
    await takeModel(drawer, 'foot.stl', new Uint8Array(9));
    expect(done).toEqual([]);
    expect(told.value).toMatchObject({ kind: 'refused' });
  });

  it('is not even looked at where it is too large', async () => {
    const { drawer, told, done } = drawerWith(() => done.push('looked'));
    await takeModel(drawer, 'foot.stl', { length: LARGEST_MODEL + 1 } as Uint8Array);
    expect(done).toEqual([]);
    expect(told.value).toMatchObject({ kind: 'refused' });
  });
});
