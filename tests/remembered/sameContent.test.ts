import { describe, expect, it } from 'vitest';
import { contentHash } from '../../src/remembered/contentHash.ts';
import { roughBytes } from '../../src/remembered/roughBytes.ts';
import { sameContent } from '../../src/remembered/sameContent.ts';

class Handle {}
const handle = new Handle();
const work = () => 1;
const long = (last: number) => Float64Array.from({ length: 10_000 }, (_, k) => (k === 9_999 ? last : k));

describe('the same content', () => {
  it.each<[string, unknown, unknown]>([
    ['numbers, not a number among them', [1, Number.NaN, -0], [1, Number.NaN, -0]],
    ['fields within fields', { a: { b: ['x', null, undefined] } }, { a: { b: ['x', null, undefined] } }],
    ['typed arrays', Uint8Array.of(1, 2, 3), Uint8Array.of(1, 2, 3)],
    ['a piece of a buffer', new Float32Array([9, 1, 2]).subarray(1), Float32Array.of(1, 2)],
    ['one handle and one function', { handle, work }, { handle, work }],
  ])('%s', (_, a, b) => {
    expect(sameContent(a, b)).toBe(true);
    expect(contentHash(a)).toBe(contentHash(b));
  });
  it.each<[string, unknown, unknown]>([
    ['the last bit of a number', 0.1 + 0.2, 0.3],
    ['the sign of nothing', [0], [-0]],
    ['the sign of nothing in an array of numbers', Float64Array.of(0), Float64Array.of(-0)],
    ['a number and its text', 1, '1'],
    ['an order of fields', { a: 1, b: 2 }, { b: 2, a: 1 }],
    ['a field that is undefined and one that is not there', { a: undefined }, {}],
    ['a list and what has the fields of one', ['a'], { 0: 'a' }],
    ['kinds of typed arrays', Int8Array.of(1), Uint8Array.of(1)],
    ['two handles', new Handle(), new Handle()],
    ['two functions', () => 1, () => 1],
    ['the far end of a long list', long(1), long(2)],
  ])('tells apart %s', (_, a, b) => {
    expect(sameContent(a, b)).toBe(false);
    expect(sameContent(b, a)).toBe(false);
  });
});

it('counts bytes once, and handles not at all', () => {
  expect(roughBytes(new Float64Array(1000))).toBeGreaterThanOrEqual(8000);
  expect(roughBytes(handle)).toBe(0);
  const list = new Float64Array(1000);
  expect(roughBytes([list, list])).toBeLessThan(9000);
});
