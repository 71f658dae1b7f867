// The short part of `npm run fuzz`: the same few inputs of every kind, each time.
import { describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import { kinds } from './kinds/index.ts';
import { oneCase, seedsOf } from './oneCase.ts';

const SEED = 20261126;

describe.each(kinds.map((kind) => [kind.name, kind] as const))('%s', (_, kind) => {
  it(`is made soundly or refused by name, ${kind.few} times`, async () => {
    const seeds = seedsOf(SEED, kind);
    const ends = new Set<string>();
    for (let k = 0; k < kind.few; k++) {
      const { seed, outcome } = await oneCase(kind, seeds(k));
      if ('failed' in outcome) expect.fail(`--only '${kind.name}' --case ${seed}: ${outcome.failed}`);
      ends.add('made' in outcome ? 'made' : 'refused');
    }
    // Damage that never matters, or always does, tries nothing.
    if (/damaged/.test(kind.name) && kind.few >= 20) expect([...ends].sort()).toEqual(['made', 'refused']);
    if (/^make /.test(kind.name)) expect(ends).toContain('made');
  });
});

it('makes jobs of every family there is', () => {
  const made = kinds.flatMap(({ name }) => (/^make /.test(name) ? [name.slice('make '.length)] : []));
  expect(made).toEqual(expect.arrayContaining(families.map(({ id }) => id)));
});
