// What looks over results must see what it is there to see.
import { describe, expect, it } from 'vitest';
import { RefusedFile } from '../../../src/cli/refusedFile.ts';
import { altered, blockMesh, plainStl, plainText, plainThreeMf } from '../../donor/files.ts';
import { commandRun } from '../commandRun.ts';
import { mustBePlainRefusal } from './plainRefusal.ts';
import { mustBeInNumbers, slipsIn } from './slips.ts';
import { mustBeSoundFiles } from './soundFiles.ts';
import { mustBeSolid } from './soundSolid.ts';

const block = blockMesh([0, 0, 0], [2, 3, 4]);
const utf8 = (text: string) => new TextEncoder().encode(text);
const problem = { code: 'a_code', field: 'a', value: '1', allowed: '2' };

describe('mustBeSolid', () => {
  it('gives the volume of a block in every form of file', () => {
    expect(mustBeSolid('a.stl', plainStl(block), { whole: true })).toBeCloseTo(24, 6);
    expect(mustBeSolid('a.stl', utf8(plainText(block)), { whole: true })).toBeCloseTo(24, 6);
    expect(mustBeSolid('a.3mf', plainThreeMf(block), { whole: true })).toBeCloseTo(24, 6);
  });

  it.each([
    ['a triangle missing', { without: [3] }, /3 edges open/],
    ['a triangle turned', { turned: [0] }, /3 edges open or facing both ways/],
    ['all triangles turned', { turned: 'all' }, /volume -24/],
  ] as const)('refuses %s', (_, change, said) => {
    const file = plainStl(altered(block, change));
    expect(() => mustBeSolid('a.stl', file, { whole: true })).toThrow(said);
    expect(() => mustBeSolid('a.3mf', plainThreeMf(altered(block, change)), { whole: true })).toThrow(said);
  });

  it('refuses a coordinate that is no number, and a flat triangle', () => {
    const odd = plainStl(block);
    new DataView(odd.buffer).setFloat32(84 + 12, Number.NaN, true);
    expect(() => mustBeSolid('a.stl', odd, { whole: true })).toThrow(/no number/);
    const flat = plainStl({ ...block, triangles: Uint32Array.from([...block.triangles, 0, 0, 1]) });
    expect(() => mustBeSolid('a.stl', flat, { whole: true })).toThrow(/two corners in one place/);
  });
});

describe('texts and numbers', () => {
  it.each(['a NaN mm', '-Infinity', 'undefined', '[object Object]'])('sees %s', (text) => {
    expect(slipsIn(text)).toHaveLength(1);
  });
  it('leaves words that only contain one, and null unless it counts', () => {
    expect(slipsIn('nanometre, Infinitybox, null')).toEqual([]);
    expect(slipsIn('null', { nulls: true })).toEqual(['null']);
  });
  it('finds NaN anywhere in a value, and infinity where nothing may be without an end', () => {
    expect(() => mustBeInNumbers({ a: [{ b: Number.NaN }] })).toThrow('.a.0.b is NaN');
    expect(() => mustBeInNumbers({ u: Infinity })).toThrow('.u is Infinity');
    mustBeInNumbers({ dof: Infinity, window: [-Infinity, 1] });
  });
});

describe('a refusal', () => {
  it.each([
    ['no field', '', { ...problem, field: '' }, /names neither/],
    ['nothing allowed', 'f', { ...problem, allowed: '' }, /does not say/],
    ['a slip', 'f', { ...problem, allowed: 'at most NaN' }, /says NaN/],
  ])('with %s is none', (_, file, one, said) => {
    expect(() => mustBePlainRefusal(file, [one], () => 'line')).toThrow(said);
  });
  it('may quote what somebody gave, but not at any length', () => {
    mustBePlainRefusal('f', [{ ...problem, value: '"NaN"' }], () => 'line');
    expect(() => mustBePlainRefusal('f', [problem], () => 'x'.repeat(9999))).toThrow(/9999 characters/);
  });
});

describe('commandRun', () => {
  it('sees what was printed and written', async () => {
    const run = await commandRun({ 'a.json': '{}' }, async (inFolder) => {
      console.log('said');
      const { writeFileSync } = await import('node:fs');
      writeFileSync(inFolder('b.json'), '{"files": []}');
    });
    expect(run).toMatchObject({ said: 'said\n', code: 0, refused: [] });
    expect([...run.files.keys()]).toEqual(['a.json', 'b.json']);
  });
  it('throws on what was written and refused all the same, and what is no refusal', async () => {
    const refuse = () => {
      throw new RefusedFile('a.json', [problem]);
    };
    expect((await commandRun({ 'a.json': '' }, async () => refuse())).refused).toEqual(['a_code']);
    const writes = commandRun({ 'a.json': '' }, async (inFolder) => {
      const { writeFileSync } = await import('node:fs');
      writeFileSync(inFolder('a.json'), 'x');
      refuse();
    });
    await expect(writes).rejects.toThrow('a.json was written');
    const breaks = commandRun({}, async () => Promise.reject(new TypeError('x is not a function')));
    await expect(breaks).rejects.toThrow('not a function');
  });
});

it('mustBeSoundFiles sees slips, files left over, and hashes that are not true', () => {
  const of = (name: string, text: string) => () =>
    mustBeSoundFiles({ said: '', files: new Map([[name, utf8(text)]]) });
  expect(of('a.svg', '<svg>null</svg>')).toThrow(/says null/);
  expect(of('.a.stl.1f', 'x')).toThrow(/left over/);
  expect(of('a.json', '{"a":')).toThrow(SyntaxError);
  expect(of('a.json', '{"files": [{"path": "a.json", "sha256": "0"}]}')).toThrow(/another hash/);
  expect(of('a.json', '{"files": [{"path": "b.stl", "sha256": "0"}]}')).toThrow(/not there/);
  of('a.json', '{"files": []}')();
});
