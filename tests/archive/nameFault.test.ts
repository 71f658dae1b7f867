import { describe, expect, it } from 'vitest';
import { nameFault, sameName } from '../../src/archive/nameFault.ts';

describe('nameFault', () => {
  it.each([
    'a',
    'clip.stl',
    'made/clip-left.stl',
    'Füße 2 (neu).stl',
    '部品.stl',
    'console.txt',
    'com10',
    'a.b.c',
  ])('takes %j', (name) => expect(nameFault(name)).toBeUndefined());
  // Device names: "Naming Files, Paths, and Namespaces", Microsoft Learn.
  it.each([
    ['', /empty/],
    ['..', /leads out/],
    ['a/../../b', /leads out/],
    ['/etc/passwd', /fixed place/],
    ['\\\\host\\share', /fixed place/],
    ['C:evil.stl', /fixed place/],
    ['c:/evil.stl', /fixed place/],
    ['a\\..\\b', /backslash/],
    ['a//b', /empty step/],
    ['./a', /empty step/],
    ['a/', /empty step/],
    ['a\0.stl', /control/],
    ['a\nb', /control/],
    ['a\u0085b', /control/],
    ['gpj.\u202elts', /do not show/],
    ['a\u200bb', /do not show/],
    ['a\ufffdb', /do not show/],
    ['\ud800', /do not show/],
    ['note.txt:stream', /one of/],
    ['what?.stl', /one of/],
    ['CON', /device/],
    ['nul.stl', /device/],
    ['made/Aux .tar.gz', /device/],
    ['com1.txt', /device/],
    ['LPT³', /device/],
    ['clip.stl.', /ends with a point/],
    ['dir /a', /ends with a point/],
    [' a', /begins with/],
    ['.bashrc', /begins with a point/],
    ['made/.git/config', /begins with a point/],
    ['e\u0301.stl', /NFC/],
    ['x'.repeat(121), /too long/],
    [Array(5).fill('x'.repeat(60)).join('/'), /too long/],
  ])('refuses %j', (name, why) => expect(nameFault(name)).toMatch(why));
});

it.each([
  ['Clip.STL', 'clip.stl', true],
  ['ﬁt.stl', 'fit.stl', true],
  ['straße', 'STRASSE', true],
  ['a', 'b', false],
])('sameName holds %j and %j to be one name: %j', (a, b, same) =>
  expect(sameName(a) === sameName(b)).toBe(same),
);
