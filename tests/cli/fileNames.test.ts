import { basename } from 'node:path';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { baseName } from '../../src/cli/fileNames.ts';

it.each([
  ['enter-key.job.json', 'enter-key'],
  ['jobs/../Enter key.job.json', 'Enter-key'],
  ['clip.json', 'clip'],
  ['clip', 'clip'],
  ['Halterung für Ü.JSON', 'Halterung-für-Ü'],
  ['..', 'part'],
  ['../..job.json', 'part'],
  ['.job.json', 'part'],
  ['con.job.json', 'part'],
  ['NUL.x.json', 'part'],
  ['a\u0000b\nc.json', 'a-b-c'],
  ['--out.json', 'out'],
  ['a:b*c?.json', 'a-b-c'],
])('%j makes %s', (path, base) => {
  expect(baseName(path, 'part')).toBe(base);
});

it('is always one name in one folder', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (path) => {
      const base = baseName(path, 'part');
      expect(base).toMatch(/^[\p{L}\p{N}_][\p{L}\p{N}._-]*$/u);
      expect(basename(base)).toBe(base);
      expect(base.length).toBeLessThanOrEqual(80);
    }),
    { seed: 1, numRuns: 2000 },
  );
});
