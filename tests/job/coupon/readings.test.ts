import { describe, expect, it } from 'vitest';
import { understandReadings } from '../../../src/job/coupon/understandReadings.ts';
import { Refused } from '../../../src/job/problem.ts';
import { parseReadings } from '../../../src/job/readings/parseReadings.ts';
import { callipers, features } from '../../printer/calibration/bench.ts';

const plain = (text: string, kind: 'csv' | 'json') =>
  Object.fromEntries(parseReadings(text, kind).readings.map(({ feature, texts }) => [feature, texts]));

/** Problems of what is refused. */
function refused(work: () => unknown) {
  try {
    work();
  } catch (error) {
    if (error instanceof Refused) return error.problems;
    throw error;
  }
  throw new Error('was not refused');
}

describe('tables', () => {
  it.each<[string, string, Record<string, string[]>]>([
    ['comma', 'bore.3,4.79,4.80\nbore.4,3.81\n', { 'bore.3': ['4.79', '4.80'], 'bore.4': ['3.81'] }],
    ['semicolon with decimal comma', 'bore.3;4,79;4,80\n', { 'bore.3': ['4,79', '4,80'] }],
    ['tab', 'bore.3\t4,79\t4.80', { 'bore.3': ['4,79', '4.80'] }],
    ['a row of titles', 'feature,reading\nbore.3,4.79', { 'bore.3': ['4.79'] }],
    ['titles over each reading', 'id;reading 1;reading 2\nbore.3;4,79;4,80', { 'bore.3': ['4,79', '4,80'] }],
    [
      'one title over several',
      'feature,readings,,\nbore.3,4.79,4.80,4.81',
      { 'bore.3': ['4.79', '4.80', '4.81'] },
    ],
    ['columns of no interest', 'number,name,nominal,measured\n3,"bore, third",5,4.79', { 3: ['4.79'] }],
    ['id before number', 'number,id,value\n3,bore.4,4.79', { 'bore.4': ['4.79'] }],
    ['a title of #', '#;reading\n3;4,79', { 3: ['4,79'] }],
    [
      'byte order mark, CRLF, remarks, blank rows',
      '\uFEFF# my coupon\r\n\r\nbore.3,4.79\r\n  # half way\r\n,,\r\n',
      { 'bore.3': ['4.79'] },
    ],
    ['units and inch marks', 'bore.3,0.189 in,3/16",4.8mm', { 'bore.3': ['0.189 in', '3/16"', '4.8mm'] }],
    ['blank cells', 'bore.3,,4.79,\nbore.4,,', { 'bore.3': ['4.79'], 'bore.4': [] }],
    ['nothing', '', {}],
  ])('%s', (_, text, expected) => {
    expect(plain(text, 'csv')).toEqual(expected);
  });

  it('say on which line a reading stands', () => {
    const { readings } = parseReadings('# one\nfeature,reading\nbore.3,4.79\n\nbore.4,3.8\n', 'csv');
    expect(readings.map(({ where }) => where)).toEqual(['line 3', 'line 5']);
  });

  it('that do not close a quotation mark are refused', () => {
    expect(refused(() => parseReadings('"bore.3,4.79\n', 'csv'))[0]).toMatchObject({ code: 'csv_malformed' });
  });
});

describe('JSON', () => {
  it.each<[string, unknown, Record<string, unknown[]>]>([
    ['by feature', { 'bore.3': 4.79, 4: ['4,80', 4.81] }, { 'bore.3': [4.79], 4: ['4,80', 4.81] }],
    [
      'under readings',
      { callipers: { name: 'long' }, readings: { 'bore.3': ['4.79'] } },
      { 'bore.3': ['4.79'] },
    ],
    [
      'a list',
      [
        { id: 'bore.3', reading: 4.79 },
        { feature: 'bore.4', readings: [4.8, 4.81] },
        { number: 5, value: '4.9' },
        { id: 'bore.6', number: 6, nominal: 6, measured: 5.8 },
        { id: 'bore.7', nominal: 8 },
      ],
      { 'bore.3': [4.79], 'bore.4': [4.8, 4.81], 5: ['4.9'], 'bore.6': [5.8], 'bore.7': [] },
    ],
    ['a list under readings', { readings: [{ id: 'bore.3', reading: 4.79 }] }, { 'bore.3': [4.79] }],
    ['blanks', { a: null, b: '', c: [null, ' ', 1] }, { a: [], b: [], c: [1] }],
  ])('%s', (_, json, expected) => {
    expect(plain(`\uFEFF${JSON.stringify(json)}`, 'json')).toEqual(expected);
  });

  it.each<[string, string, string]>([
    ['what is no JSON', '{"bore.3": 4.79,}', 'json_malformed'],
    ['a name twice', '{"bore.3": 4.79, "bore.3": 4.8}', 'json_name_twice'],
    ['a number alone', '4.79', 'readings_form'],
    ['a nested list', '{"bore.3": [[4.79]]}', 'readings_form'],
    ['an entry without a name', '[{"reading": 4.79}]', 'readings_form'],
    ['a field that is none', '{"readings": {"bore.3": 4.79}, "caliper": {}}', 'field_unknown'],
  ])('refuses %s', (_, text, code) => {
    expect(refused(() => parseReadings(text, 'json'))[0]).toMatchObject({ code });
  });
});

describe('what they are readings of', () => {
  const understood = (text: string, kind: 'csv' | 'json' = 'csv') =>
    understandReadings(parseReadings(text, kind), features, callipers, 'mm');
  const third = features[2]!;

  it('is found by id, whatever its case, and by number', () => {
    const expected = { [third.id]: [{ mm: 2.9, text: '2,90' }] };
    for (const name of [third.id, third.id.toUpperCase(), String(third.number)])
      expect(understood(`${name};2,90`)).toEqual(expected);
  });

  it('is added to by further rows', () => {
    expect(understood(`${third.id},2.90\n${third.number},2.91`)[third.id]).toHaveLength(2);
  });

  it('twice in one object is a mistake', () => {
    const text = JSON.stringify({ [third.id]: 2.9, [third.number]: 2.91 });
    expect(refused(() => understood(text, 'json'))[0]).toMatchObject({ code: 'feature_twice' });
  });

  it('knows units: 3/32 in is 2.38125 mm', () => {
    expect(understood('bore.2,3/32 in')['bore.2']).toEqual([{ mm: 2.38125, text: '3/32 in' }]);
  });

  it('are never more of one feature than anybody takes, which is said once, whatever a damaged file holds', () => {
    expect(understood(`${third.id}${',2.90'.repeat(100)}`)[third.id]).toHaveLength(100);
    const row = `${third.id}${',x'.repeat(20_000)}`;
    const rows = `${third.id},2.90\n`.repeat(5_000);
    for (const [text, count] of [
      [row, 20_000],
      [rows, 101],
    ] as const) {
      const problems = refused(() => understood(text));
      expect(problems).toHaveLength(1);
      expect(problems[0]).toMatchObject({
        code: 'too_many_readings',
        value: `${count} readings of ${third.id}`,
        allowed: 'at most 100 of one feature',
      });
    }
  });

  it('says every problem at once, with near names', () => {
    const problems = refused(() => understood(`bor.5,4.8\n${third.id},x\n${third.id},31\n99,1`));
    expect(problems.map(({ code }) => code)).toEqual([
      'feature_unknown',
      'reading_unclear',
      'reading_range',
      'feature_unknown',
    ]);
    expect(problems[0]!.allowed).toContain('Did you mean bore.5?');
  });
});
