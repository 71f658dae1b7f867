import { expect, test } from 'vitest';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { migrateProfile } from '../../src/printer/migrate.ts';
import { printerProfileSchema } from '../../src/printer/profile.ts';

/** A profile as the first version wrote it. */
const old = () => {
  const { material, firstLayerError, levelSag, skew, ...rest } = defaultPrinter;
  return { ...rest, fettlePrinter: 1, name: 'Bench Ox' };
};

test('a profile of version 1 keeps what it says and doubts what it did not know', () => {
  const before = old();
  const today = printerProfileSchema.parse(migrateProfile(before));
  expect(today).toEqual({ ...defaultPrinter, name: 'Bench Ox' });
  expect(before.fettlePrinter).toBe(1);
});

test('what is wrong with it stays wrong', () => {
  expect(printerProfileSchema.safeParse(migrateProfile({ ...old(), layer: -1 })).success).toBe(false);
});

test.each([[null], ['a name'], [[1]], [3], [{ fettlePrinter: 3 }], [{}]])(
  '%j comes back as it is',
  (value) => {
    expect(migrateProfile(value)).toBe(value);
  },
);
