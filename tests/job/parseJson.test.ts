import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseJson } from '../../src/job/parseJson.ts';

it('gives what JSON.parse gives', () => {
  fc.assert(
    fc.property(fc.json(), (text) => {
      const parsed = parseJson(text, '');
      // fast-check may repeat a name in an object; that is the one thing refused.
      if ('json' in parsed) expect(parsed.json).toEqual(JSON.parse(text));
      else expect(parsed.code).toBe('json_name_twice');
    }),
    { seed: 1 },
  );
});

it('refuses whatever JSON.parse refuses, whichever character is lost', () => {
  const text = '{"readings": {"bar": ["1.60", 1.6e0, null, true]}, "note": "a\\u00e4\\n"}';
  let refused = 0;
  for (let k = 0; k < text.length; k++) {
    const broken = text.slice(0, k) + text.slice(k + 1);
    let accepted = true;
    try {
      JSON.parse(broken);
    } catch {
      accepted = false;
    }
    if (!accepted) refused++;
    expect('json' in parseJson(broken, ''), broken).toBe(accepted);
  }
  expect(refused).toBeGreaterThan(20);
});

describe('says where it stops being JSON', () => {
  it.each([
    ['{"a": 1,\n "b": }', 'line 2, column 7'],
    ['{"a": 1\n "b": 2}', 'line 2, column 2'],
    ['{"a": tru}', 'line 1, column 7'],
    ['', 'line 1, column 1'],
    ['// note\n{}', 'line 1, column 1'],
    ["{'a': 1}", 'line 1, column 2'],
    ['{"a": NaN}', 'line 1, column 7'],
    ['{"a": "line\nbreak"}', 'control character'],
    ['['.repeat(200_000), 'nested too deep'],
  ])('%j', (text, place) => {
    const parsed = parseJson(text, 'printer');
    expect(parsed).toMatchObject({ code: 'json_malformed', field: 'printer' });
    expect('code' in parsed && parsed.value).toContain(place);
    expect('code' in parsed && parsed.value).not.toContain('\n');
  });
});

it.each([
  ['{"a": 1, "b": 2, "a": 3}', '"a" a second time at line 1, column 18'],
  ['{"readings": {"bar": [],\n"bar": []}}', '"bar" a second time at line 2, column 1'],
  ['{"a": 1, "\\u0061": 3}', '"a" a second time at line 1, column 10'],
])('refuses a name given twice: %j', (text, value) => {
  expect(parseJson(text, '')).toMatchObject({ code: 'json_name_twice', value });
});
