// The short part of `npm run fuzz`: the same few inputs of every kind, each time.
import { afterAll, describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import { kinds } from './kinds/index.ts';
import { oneCase, seedsOf } from './oneCase.ts';

const SEED = 20261126;
const ends = { make: { made: 0, refused: 0 }, damaged: { made: 0, refused: 0 } };

const tried = kinds.filter(({ few }) => few > 0);

describe.each(tried.map((kind) => [kind.name, kind] as const))('%s', (_, kind) => {
  it(`is made soundly or refused by name, ${kind.few} times`, async () => {
    const seeds = seedsOf(SEED, kind);
    for (let k = 0; k < kind.few; k++) {
      const { seed, outcome } = await oneCase(kind, seeds(k));
      if ('failed' in outcome) expect.fail(`--only '${kind.name}' --case ${seed}: ${outcome.failed}`);
      const end = 'made' in outcome ? 'made' : 'refused';
      if (/^make /.test(kind.name)) ends.make[end]++;
      if (/damaged/.test(kind.name)) ends.damaged[end]++;
    }
  });
});

it('makes jobs of every family there is', () => {
  const made = kinds.flatMap(({ name }) => (/^make /.test(name) ? [name.slice('make '.length)] : []));
  expect(made).toEqual(expect.arrayContaining(families.map(({ id }) => id)));
});

afterAll(() => {
  // Otherwise one that refuses everything would pass; damage that never matters, or always does, tries nothing.
  if (ends.make.made + ends.make.refused === 0) return;
  expect(ends.make.made).toBeGreaterThan(ends.make.refused);
  expect(ends.damaged.made).toBeGreaterThan(10);
  expect(ends.damaged.refused).toBeGreaterThan(50);
});
