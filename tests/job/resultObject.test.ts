import { describe, expect, it } from 'vitest';
import { jsonSchema } from '../../src/job/formats/jsonSchema.ts';
import { resultObject, resultText } from '../../src/job/resultObject.ts';
import { fakeResult } from '../cli/fakeResult.ts';
import { validator } from '../cli/validator.ts';

const valid = validator(jsonSchema('result'));
const file = { path: 'out/clip.stl', kind: 'stl', sha256: 'cd'.repeat(32), triangles: 12 } as const;

it('keeps to the JSON Schema that ships, as another validator reads it', () => {
  const object = JSON.parse(resultText(resultObject(fakeResult, [file])));
  expect(valid(object), JSON.stringify(valid.errors)).toBe(true);
});

it('writes null for what is infinite, and leaves the mesh out', () => {
  const object = resultObject(fakeResult, [file]);
  expect(object.interfaces[1]!.window).toEqual([0.05, null]);
  expect(object.dimensions.bar!.dof).toBeNull();
  expect(object).not.toHaveProperty('mesh');
  expect(Object.keys(object).slice(0, 2)).toEqual(['job', 'files']);
});

describe('never lets out', () => {
  it.each([
    ['a chance that is no number', { chance: Number.NaN }],
    ['a chance above 1', { chance: 1.01 }],
    ['a size that is no number', { interfaces: [{ ...fakeResult.interfaces[0]!, drawn: Number.NaN }] }],
    ['an infinite volume', { print: { ...fakeResult.print, volume: Number.POSITIVE_INFINITY } }],
    ['a field nobody agreed on', { extra: 1 }],
  ])('%s', (_, change) => {
    expect(() => resultObject({ ...fakeResult, ...change }, [file])).toThrow();
  });
});

it('gives the same text for the same result', () => {
  expect(resultText(resultObject(fakeResult, [file]))).toBe(
    resultText(resultObject(structuredClone(fakeResult), [file])),
  );
});
