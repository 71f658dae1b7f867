import fc from 'fast-check';

/** Stands in a value for text that no JSON writer would put there. */
const raw = (text: string): string => `@raw ${text}@`;

/** What no field expects: other types, numbers beyond all bounds, names that objects have by themselves, text from
 *  everywhere. Not the text NaN: where it is told as it was given it could not be told from a number that got lost. */
const ODD: readonly unknown[] = [
  ...[null, true, false, '', ' ', 0, -0, -1, 1.5, 1e-308, 1e300, 2 ** 53, -(2 ** 31), 99999999999],
  ...[raw('1e999'), raw('-1e999'), raw('NaN'), raw('Infinity'), raw('undefined'), raw('01'), raw('')],
  ...['1e9', '-3', '1/0', '0x10', '１２', '1,234.5', '12"', '3/64 in', '1\' 2"', '1.6.6', '٣', 'nan mm'],
  ...[[], {}, [[]], [null], { value: 1 }, ['1', 2, null], [1, 2], [2, 1], [null, null]],
  ...[
    '\u202e5.1',
    '\ufeff4.0',
    '4\u00a0mm',
    'e\u0301'.repeat(40),
    '😀',
    '\u0000',
    '\u001b[2J',
    'a\nb',
    '\ud800',
  ],
  ...[
    '__proto__',
    'constructor',
    'toString',
    'hasOwnProperty',
    '2026-02-30',
    '9999-12-31',
    '../../x',
    'C:\\x',
  ],
  ...['x'.repeat(201), 'x'.repeat(100_000), 'H8/f7', 'A1/a1', 'ZZ99/zz99', 'sliding', 'c'.repeat(64)],
  ...[
    Array(500).fill(1),
    Array(101).fill('4.0'),
    Object.fromEntries(Array.from({ length: 300 }, (_, k) => [`k${k}`, k])),
  ],
  raw('['.repeat(5000) + ']'.repeat(5000)),
  raw(`${'{"a":'.repeat(3000)}1${'}'.repeat(3000)}`),
];
const KEYS = [
  '__proto__',
  'constructor',
  'toString',
  'a\nb',
  '',
  ' ',
  'x'.repeat(300),
  'Ünïcode',
  '0',
  'NAME',
  '\u202e',
];

interface Change {
  readonly what: 'put' | 'put' | 'drop' | 'name' | 'add' | 'swap' | 'wrap' | 'many' | 'scale' | 'double';
  /** Which of all places, and which other one. */
  readonly at: number;
  readonly other: number;
  readonly odd: unknown;
  readonly key: string;
  readonly by: number;
}

/** One to three changes of what a JSON file says. */
export const changes: fc.Arbitrary<readonly Change[]> = fc.array(
  fc.record({
    what: fc.constantFrom<Change['what']>(
      'put',
      'put',
      'put',
      'drop',
      'name',
      'add',
      'swap',
      'wrap',
      'many',
      'scale',
      'scale',
      'double',
    ),
    at: fc.nat(),
    other: fc.nat(),
    odd: fc.oneof(
      { weight: 4, arbitrary: fc.constantFrom(...ODD) },
      { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 2 }) },
    ),
    key: fc.constantFrom(...KEYS),
    by: fc.constantFrom(-1, 0, 0.5, 2, 10, 25.4, 1 / 25.4, 1e6, 1e-6, 1 + 1e-6),
  }),
  { minLength: 1, maxLength: 3 },
);

type Box = Record<string, unknown>;
/** Where a value stands. */
type Place = readonly [Box, string];

function placesIn(value: unknown): Place[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => [[value as Box, key] as const, ...placesIn(inner)]);
}

/** The text of a JSON value with the changes made; it may be no JSON any more. */
export function changed(value: unknown, list: readonly Change[]): string {
  const whole = { whole: structuredClone(value) } as Box;
  const doubled: string[] = [];
  for (const change of list) {
    const places = placesIn(whole);
    if (places.length === 0) break;
    const [box, key] = places[change.at % places.length]!;
    make(box, key, change, places[change.other % places.length]!, doubled);
  }
  const text = JSON.stringify(whole.whole, null, list.length % 2) ?? '';
  const twice = doubled.reduce(
    (all, key) => all.replace(`${JSON.stringify(key)}:`, (same) => `${same}1,${same}`),
    text,
  );
  return twice.replace(/"@raw (.*?)@"/gs, (_, inner: string) => JSON.parse(`"${inner}"`) as string);
}

function make(box: Box, key: string, change: Change, [otherBox, otherKey]: Place, doubled: string[]): void {
  const inner = box[key];
  // A copy: what one change puts in, another may change, and the next file gets the same.
  const odd = structuredClone(change.odd);
  switch (change.what) {
    case 'put':
      box[key] = odd;
      return;
    case 'drop':
      if (Array.isArray(box)) box.splice(Number(key), 1);
      else delete box[key];
      return;
    case 'name':
      if (Array.isArray(box)) return;
      delete box[key];
      define(box, change.key, inner);
      return;
    case 'add':
      if (Array.isArray(box)) box.push(odd);
      else define(box, change.key, odd);
      return;
    case 'swap':
      box[key] = structuredClone(otherBox[otherKey]);
      return;
    case 'wrap':
      box[key] = change.at % 2 === 0 ? [inner] : { [change.key]: inner };
      return;
    case 'many':
      box[key] = Array.from({ length: change.at % 150 }, () => structuredClone(inner));
      return;
    case 'scale':
      box[key] = scaled(inner, change.by);
      return;
    case 'double':
      doubled.push(key);
  }
}

/** An own field even where the name is `__proto__`. */
const define = (box: Box, key: string, value: unknown): void =>
  void Object.defineProperty(box, key, { value, enumerable: true, configurable: true, writable: true });

function scaled(value: unknown, by: number): unknown {
  if (typeof value === 'number') return value * by;
  if (typeof value === 'string') return value.replace(/\d+(\.\d+)?/, (text) => String(Number(text) * by));
  return value;
}
