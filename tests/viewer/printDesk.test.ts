import { effect } from '@preact/signals';
import { afterEach, describe, expect, it, test, vi } from 'vitest';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { knownFigures } from '../../src/printer/parameterTold.ts';
import { PARAMETERS, type PrinterProfile } from '../../src/printer/types.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { Bench } from '../../viewer/bench/bench.ts';
import { freshHistory, JobHistory } from '../../viewer/bench/jobHistory.ts';
import { closeWindow, outlineData } from '../../viewer/sheets/print/bedLines.ts';
import { CouponDesk } from '../../viewer/sheets/print/couponDesk.ts';
import { couponKey, keepTexts, keptTexts, type SmallStore } from '../../viewer/sheets/print/couponKey.ts';
import { type FeltMark, marked, marksOf, verdictOf } from '../../viewer/sheets/print/feltMarks.ts';
import { isDay } from '../../viewer/sheets/print/isDay.ts';
import { ladderGroups } from '../../viewer/sheets/print/ladderGroups.ts';
import { parameterPicture } from '../../viewer/sheets/print/parameterPicture.ts';
import { answersOf, profileFrom, wrongAnswer } from '../../viewer/sheets/print/printerAnswers.ts';
import { printFindings } from '../../viewer/sheets/print/printFindings.ts';
import { parameterLines } from '../../viewer/sheets/print/profileOf.ts';
import { today } from '../../viewer/sheets/print/today.ts';
import { SpineClient } from '../../viewer/spine/spineClient.ts';
import { couponFacts } from '../../viewer/spine/tasks/coupon.ts';
import { exampleJob } from '../../viewer/start/exampleJob.ts';
import { FakeWorker } from './fakeWorker.ts';

const own: PrinterProfile = { ...defaultPrinter, name: 'Ostler 2', material: 'PETG' };
/** For what waits for a rest after typing, on a machine that is busy. */
const PATIENCE = { timeout: 30_000 };
const workers: FakeWorker[] = [];
afterEach(() => {
  for (const worker of workers.splice(0)) worker.terminate();
});

/** A browser's small store, in memory. */
function smallStore(): SmallStore & { readonly items: Map<string, string> } {
  const items = new Map<string, string>();
  return {
    items,
    getItem: (key) => items.get(key) ?? null,
    setItem: (key, text) => void items.set(key, text),
    removeItem: (key) => void items.delete(key),
  };
}

/** The coupon desk over a job, its drawing from the real thing, across a real border. */
async function deskOver(
  store: SmallStore,
  printer: PrinterProfile | undefined = own,
  calibrating: (date: string) => void = () => {},
) {
  const kernel = await loadKernel();
  const open = () => {
    const worker = new FakeWorker({
      work: async () => ({ kind: 'refused', problems: [] }),
      coupon: async (profile, field) => couponFacts(kernel, profile, field),
      calibrate: async (_, __, ___, date) => {
        calibrating(date);
        return { kind: 'refused', problems: [] };
      },
    });
    workers.push(worker);
    return worker as unknown as Worker;
  };
  const job = { ...exampleJob, unit: 'mm' as const, printer: printer as never };
  const bench = new Bench(new JobHistory(freshHistory(job)), new SpineClient(open));
  bench.sheet.value = 'print';
  const desk = new CouponDesk(bench, store);
  desk.isOpen.value = true;
  await new Promise<void>((resolve) => effect(() => void (desk.rows.value.length > 0 && resolve())));
  return { desk, bench };
}

describe('readings of a coupon', () => {
  it('go on by Enter in the order of the numbers on the print, each read as often as asked', async () => {
    const store = smallStore();
    const { desk } = await deskOver(store);
    const order = desk.rows.value.map(({ feature }) => feature);
    expect(order.map(({ number }) => number)).toEqual(Array.from({ length: 31 }, (_, k) => k + 1));
    let at = order[0]!.id;
    const typed = ['1.83', '1,84', '3.85', '3.86'];
    for (const text of typed) {
      desk.typing.open(at);
      for (let k = 1; k <= text.length; k++) desk.typing.type(text.slice(0, k));
      at = desk.typing.enter() ?? at;
    }
    expect(at).toBe(order[2]!.id);
    expect(desk.rows.value.slice(0, 2).map(({ texts }) => texts)).toEqual([
      ['1.83', '1,84'],
      ['3.85', '3.86'],
    ]);
    // A decimal comma is one.
    expect(desk.rows.value[0]!.values).toEqual([1.83, 1.84]);
    expect(desk.read.value).toBe(2);
  });

  it('stay out while they are none, and leave what was there as it was', async () => {
    const { desk } = await deskOver(smallStore());
    const { id } = desk.rows.value[0]!.feature;
    desk.typing.open(id);
    desk.typing.type('1.83');
    desk.typing.enter();
    desk.typing.open(id, 0);
    desk.typing.type('9.99');
    expect(desk.typing.enter()).toBeNull();
    expect(desk.typing.judged('9.99')).toMatch(/plausible|range/);
    expect(desk.rows.value[0]!.texts).toEqual(['1.83']);
    desk.typing.giveUp();
    desk.typing.open(id, 0);
    desk.typing.type('');
    desk.typing.enter();
    expect(desk.rows.value[0]!.texts).toEqual([]);
  });

  it('are taken back one at a time, in the order they were typed, each with its words', async () => {
    const { desk } = await deskOver(smallStore());
    const texts = () =>
      Object.fromEntries(
        desk.rows.value
          .filter(({ texts: own }) => own.length > 0)
          .map(({ feature, texts: own }) => [feature.number, own]),
      );
    const [first, second] = desk.rows.value.map(({ feature }) => feature.id);
    const type = (id: string, text: string, slot?: number) => {
      desk.typing.open(id, slot);
      for (let k = 1; k <= text.length; k++) desk.typing.type(text.slice(0, k));
      desk.typing.enter();
    };
    expect(desk.takesBack.value).toBeNull();
    type(first!, '1.83');
    type(first!, '1.84');
    type(second!, '3.85');
    type(first!, '1.85', 0);
    expect(texts()).toEqual({ 1: ['1.85', '1.84'], 2: ['3.85'] });
    expect(desk.takesBack.value).toBe('1: 1.85 for 1.83');
    expect(desk.takeBack()).toBe(first);
    expect(texts()).toEqual({ 1: ['1.83', '1.84'], 2: ['3.85'] });
    expect(desk.typing.said.value).toBe('Taken back: 1: 1.85 for 1.83.');
    expect(desk.takesBack.value).toBe('2: 3.85');
    expect(desk.takeBack()).toBe(second);
    expect(texts()).toEqual({ 1: ['1.83', '1.84'] });
    // A number given up, or typed as it was, is no step.
    desk.typing.open(first!, 0);
    desk.typing.type('1.8');
    desk.typing.giveUp();
    expect(desk.takesBack.value).toBe('1: 1.84');
    // What is no number yet goes first.
    desk.typing.open(second!);
    desk.typing.type('3,');
    desk.typing.type('3,8 8');
    expect(desk.takeBack()).toBeNull();
    expect(texts()).toEqual({ 1: ['1.83', '1.84'] });
    desk.clear();
    expect(desk.takesBack.value).toBe('all readings taken away');
    desk.takeBack();
    for (const left of [{ 1: ['1.83'] }, {}]) {
      desk.takeBack();
      expect(texts()).toEqual(left);
    }
    expect(desk.takesBack.value).toBeNull();
    expect(desk.takeBack()).toBeNull();
    expect(desk.typing.said.value).toBe('Nothing to take back.');
  });

  it('were taken of a coupon printed on the day that is told, today unless it is', async () => {
    const asked: string[] = [];
    const { desk } = await deskOver(smallStore(), own, (date) => asked.push(date));
    for (const { feature } of desk.rows.value.slice(0, 3)) {
      desk.typing.open(feature.id);
      desk.typing.type(String(feature.nominal));
    }
    await vi.waitFor(() => expect(asked).toEqual([today()]), PATIENCE);
    desk.printed.value = '2026-11-19';
    expect(desk.day.value).toBe('2026-11-19');
    await vi.waitFor(() => expect(asked).toEqual([today(), '2026-11-19']), PATIENCE);
  });

  it('are there again after a reload, for the same printer and no other', async () => {
    const store = smallStore();
    const first = await deskOver(store);
    first.desk.typing.open('bore.3');
    first.desk.typing.type('3.82');
    first.desk.typing.enter();
    const again = await deskOver(store);
    expect(again.desk.rows.value.find(({ feature }) => feature.id === 'bore.3')?.texts).toEqual(['3.82']);
    const other = await deskOver(store, { ...own, material: 'PLA' });
    expect(other.desk.read.value).toBe(0);
  });

  it('come from the profile where it was measured, and can be cleared and brought back', async () => {
    const covariance = PARAMETERS.map(() => PARAMETERS.map(() => 0));
    const calibration = {
      covariance,
      shared: [],
      callipers: 'mine',
      dof: 5,
      readings: { 'bore.3': ['3.82', 3.83] },
    };
    const { desk } = await deskOver(smallStore(), { ...own, calibrated: '2026-11-20', calibration });
    const texts = () => desk.rows.value.find(({ feature }) => feature.id === 'bore.3')?.texts;
    expect(texts()).toEqual(['3.82', '3.83']);
    const before = desk.clear();
    expect(texts()).toEqual([]);
    desk.restore(before);
    expect(texts()).toEqual(['3.82', '3.83']);
  });

  it('are told to be unkept where the browser keeps nothing', async () => {
    const full: SmallStore = {
      ...smallStore(),
      setItem: () => {
        throw new DOMException('full', 'QuotaExceededError');
      },
    };
    const { desk } = await deskOver(full);
    desk.typing.open('bore.3');
    desk.typing.type('3.82');
    expect(desk.unkept.value).toBe(true);
    expect(desk.read.value).toBe(1);
  });

  it('that are kept in another form are passed over', () => {
    const store = smallStore();
    const key = couponKey(own);
    expect(keepTexts(store, key, { 'bore.3': ['3.82'] })).toBe(true);
    expect(keptTexts(store, key)).toEqual({ 'bore.3': ['3.82'] });
    for (const foreign of ['[1]', '{"a":"b"}', '{"a":[1]}', '{', 'null']) {
      for (const name of store.items.keys()) store.items.set(name, foreign);
      expect([foreign, keptTexts(store, key)]).toEqual([foreign, undefined]);
    }
    expect(keepTexts(undefined, key, {})).toBe(false);
  });
});

describe('a verdict on a ladder', () => {
  const none: readonly FeltMark[] = ['untried', 'untried', 'untried', 'untried'];

  it('is what was said of each number, and comes back the same', () => {
    const marks = marked(marked(marked(none, 0, 'tight'), 2, 'right'), 3, 'loose');
    const felt = verdictOf(marks);
    expect(felt).toEqual({ tight: [1], right: [3], loose: [4] });
    expect(marksOf(4, felt!)).toEqual(marks);
  });

  it('lets the best one stand by itself, as the command line does', () => {
    const best = marked(marked(none, 0, 'tight'), 2, 'best');
    expect(verdictOf(best)).toEqual({ tight: [], right: [], loose: [], best: 3 });
    expect(verdictOf(marked(best, 1, 'right'))).toEqual({ tight: [], right: [2], loose: [] });
    expect(verdictOf(marked(best, 2, 'untried'))).toBeNull();
  });

  it('is about groups, the likeliest to go wrong first, the parts of a set as one', () => {
    const interfaces = [
      { id: 'left.socket.width', name: 'post in socket, width', chance: 0.9 },
      { id: 'left.socket.length', name: 'post in socket, length', chance: 0.99 },
      { id: 'right.socket.width', name: 'post in socket, width', chance: 0.8 },
      { id: 'left.bar', name: 'bar in slot', chance: 0.7 },
    ];
    expect(ladderGroups(interfaces, ['left', 'right'])).toEqual([
      { group: 'bar', name: 'bar in slot' },
      { group: 'socket', name: 'post in socket: width, length' },
      { group: 'socket.width', name: 'post in socket, width, alone' },
      { group: 'socket.length', name: 'post in socket, length, alone' },
    ]);
  });
});

describe('a printer', () => {
  it('starts as the usual answers say, with the doubt of any printer', () => {
    const profile = profileFrom(
      { ...answersOf(null, 'PETG'), name: ' Ostler 2 ', bed: '10" x 10 in x 254' },
      null,
    );
    expect(profile).toEqual({
      ...defaultPrinter,
      name: 'Ostler 2',
      material: 'PETG',
      bed: { x: 254, y: 254, z: 254 },
    });
    expect(wrongAnswer('bed', '220 x 220')).toMatch(/three lengths/);
    expect(profileFrom({ ...answersOf(null, 'PETG'), layer: '3' }, null)).toBeNull();
  });

  it('keeps what was measured while lines and layers stay, and forgets it when they do not', () => {
    const before: PrinterProfile = {
      ...own,
      calibrated: '2026-11-20',
      outerGrowth: { value: 0.07, u: 0.01 },
    };
    const same = profileFrom(
      { ...answersOf(before, 'PETG'), name: 'Ostler 3', bed: '200 x 200 x 180' },
      before,
    );
    expect(same).toEqual({ ...before, name: 'Ostler 3', bed: { x: 200, y: 200, z: 180 } });
    const coarser = profileFrom({ ...answersOf(before, 'PETG'), layer: '0.3' }, before);
    expect(coarser).toMatchObject({ calibrated: null, layer: 0.3, outerGrowth: defaultPrinter.outerGrowth });
  });

  it('is told with its doubt, and which way it goes only where that is sure', () => {
    const profile = { ...own, outerGrowth: { value: -0.05, u: 0.01 }, skew: { value: 0.0004, u: 0.001 } };
    const lines = Object.fromEntries(parameterLines(profile).map((line) => [line.parameter, line]));
    expect(lines.outerGrowth).toMatchObject({ way: -1, value: -0.05 });
    expect(lines.skew).toMatchObject({ way: 0 });
    // 0.2 / sqrt(12) is the deviation of a uniform range of 0.2 mm (JCGM 100:2008, 4.3.7).
    expect(lines.outerGrowth!.left).toBeCloseTo(0.01 / (0.2 / Math.sqrt(12)), 6);
    expect(lines.boreShrink!.left).toBe(1);
    expect(knownFigures('scale.x', { value: 0.998, u: 0.0005 })).toEqual(['0.20', '0.10']);
  });

  test.each(PARAMETERS)(
    '%s has a picture whose print moves with it, and lies on the drawing where nothing is sure',
    (parameter) => {
      const [less, none, more] = ([-1, 0, 1] as const).map((way) => parameterPicture(parameter, way));
      expect(new Set([less!.printed, none!.printed, more!.printed]).size).toBe(3);
      expect(new Set([less!.drawn, none!.drawn, more!.drawn]).size).toBe(1);
    },
  );
});

describe('the bed', () => {
  it('is shown larger about small parts, all of them within, in the shape of the bed', () => {
    const square = (x: number, y: number, side: number) => [
      [
        [x, y],
        [x + side, y],
        [x + side, y + side],
        [x, y + side],
      ] as [number, number][],
    ];
    const standing = [square(100, 105, 6), square(112, 105, 6)].map((contours) => ({
      contours,
      number: 1,
      at: [0, 0] as [number, number],
      long: 6,
    }));
    const bed = { x: 220, y: 110, z: 200 };
    const [left, front, wide, deep] = closeWindow({ bed, standing })!;
    expect(wide / deep).toBeCloseTo(2, 9);
    expect(left).toBeLessThan(100);
    expect(left + wide).toBeGreaterThan(118);
    expect(front).toBeLessThan(105);
    expect(front + deep).toBeGreaterThan(111);
    const large = [{ ...standing[0]!, contours: square(10, 10, 90) }];
    expect(closeWindow({ bed, standing: large })).toBeNull();
    expect(closeWindow({ bed, standing: [] })).toBeNull();
    // Front is below: what is further back has the smaller y.
    expect(
      outlineData(
        [
          [
            [0, 0],
            [1, 2],
          ],
        ],
        [0, 0, 4, 4],
      ),
    ).toBe('M0.000 4.000L1.000 2.000Z');
  });

  it('says what hangs over nothing, in a set too, and leaves out what holds or is about the machine', () => {
    const finding = (id: string, verdict: 'holds' | 'caution' | 'fails') =>
      ({ id, verdict, title: id, because: '', remedy: '' }) as never;
    const findings = [
      finding('left.overhang', 'caution'),
      finding('bridge', 'holds'),
      finding('gap.bar', 'fails'),
    ];
    const { mind, support } = printFindings(findings, ['left']);
    expect(mind.map(({ number }) => number)).toEqual([1]);
    expect(support).toBe(true);
    expect(printFindings([finding('wall', 'fails')], []).support).toBe(false);
  });
});

it('takes a day of the calendar for one, and nothing else', () => {
  for (const day of ['2026-11-19', '2024-02-29', '1999-12-31'])
    expect([day, isDay(day)]).toEqual([day, true]);
  // 2100 is no leap year (ISO 8601 counts by the Gregorian calendar).
  for (const text of [
    '2026-02-30',
    '2100-02-29',
    '2026-13-01',
    '19.11.2026',
    '2026-1-9',
    '',
    '2026-11-19T10:00',
  ])
    expect([text, isDay(text)]).toEqual([text, false]);
});

it('writes the day by the clock on the wall', () => {
  expect(today(new Date(2026, 0, 5, 23, 59))).toBe('2026-01-05');
});
