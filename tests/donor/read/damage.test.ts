// Whatever happens to a file, reading it ends in a sound mesh or in a refusal, and takes memory by what the file holds.
import fc from 'fast-check';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { DonorRefusal } from '../../../src/donor/donorRefusal.ts';
import { readDonor } from '../../../src/donor/read/readDonor.ts';
import { edited, edits } from '../../fuzz/damage/bytes.ts';
import { type Randomness, randomness } from '../../simulation/randomness.ts';
import {
  altered,
  blockMesh,
  meshXml,
  modelXml,
  plainStl,
  plainText,
  threeMfFile,
  together,
} from '../files.ts';
import { faultsOfMesh } from './independent.ts';

const hollow = altered(blockMesh([1, 1, 1], [2, 2, 2]), { turned: 'all' });
const part = together(blockMesh([0, 0, 0], [5, 4, 3]), hollow, blockMesh([6, 0, 0], [7, 1, 1]));
const model = modelXml(
  `<object id="1">${meshXml(part)}</object><object id="2"><components><component objectid="1" transform="1 0 0 0 1 0 0 0 1 9 0 0"/></components></object>`,
  '<item objectid="1"/><item objectid="2"/>',
);
const archive = threeMfFile(model);

/** Some bytes of a file changed, cut, doubled, moved or put in. */
function damaged(file: Uint8Array): Uint8Array<ArrayBuffer> {
  taken = (taken + 1) % someEdits.length;
  return edited(file, someEdits[taken]!);
}
const someEdits = fc.sample(edits, { seed: 20251, numRuns: 1600 });
let taken = 0;

const sources: Readonly<Record<string, (random: Randomness) => Uint8Array>> = {
  'binary STL': (random) => damaged(plainStl(part, random.oneOf(['', 'solid part']))),
  'STL in text': () => damaged(strToU8(plainText(part))),
  '3MF archive': () => damaged(archive),
  // Packed again after the damage, so that it is not the checksum that finds it.
  'model inside a 3MF': () => threeMfFile(strFromU8(damaged(strToU8(model)), true)),
  'relationships of a 3MF': () => {
    const parts = unzipSync(archive);
    return zipSync({ ...parts, '_rels/.rels': damaged(parts['_rels/.rels']!) });
  },
  // Triangles of which none need fit another, on a lattice so that many do.
  'random triangles': (random) =>
    plainStl({
      positions: Float64Array.from({ length: 3 * 12 }, () => Math.floor(random.uniform(0, 3))),
      triangles: Uint32Array.from({ length: 3 * Math.ceil(random.uniform(0, 40)) }, () =>
        Math.floor(random.uniform(0, 12)),
      ),
    }),
  'triangles taken out, turned, written twice': (random) => {
    const some = (): number[] =>
      Array.from({ length: Math.floor(random.uniform(0, 3)) }, () => Math.floor(random.uniform(0, 36)));
    return plainStl(
      together(altered(part, { without: some(), turned: some() }), altered(part, { without: some() })),
    );
  },
};

describe.each(Object.keys(sources))('damage to %s', (name) => {
  test('ends in a sound mesh or a refusal that says something', () => {
    const random = randomness(20251);
    const codes = new Map<string, number>();
    for (let k = 0; k < 400; k++) {
      const file = sources[name]!(random);
      let code = 'read';
      try {
        const { mesh, sound } = readDonor(file, 'part');
        expect(faultsOfMesh(mesh)).toEqual([]);
        expect(sound.manifold).toBe(true);
        expect(sound.genus).toBeGreaterThanOrEqual(0);
        expect(Number.isInteger(sound.genus)).toBe(true);
        expect(sound.bodies).toBeGreaterThan(0);
        expect(Number.isFinite(sound.volume)).toBe(true);
      } catch (error) {
        if (!(error instanceof DonorRefusal)) throw error;
        expect(error.given).not.toBe('');
        expect(error.allowed).not.toBe('');
        expect(error.message).not.toMatch(/undefined|NaN|null|Infinity/);
        ({ code } = error);
      }
      codes.set(code, (codes.get(code) ?? 0) + 1);
    }
    // The damage must neither always nor never matter, or nothing was tried.
    expect([...codes.values()].reduce((sum, n) => sum + n, 0)).toBe(400);
    expect(codes.size, JSON.stringify([...codes])).toBeGreaterThan(1);
  });
});

test('no memory is set aside for what a file only counts', () => {
  const small = plainStl(part);
  new DataView(small.buffer).setUint32(80, 0xffffffff, true);
  const zip = archive.slice();
  const view = new DataView(zip.buffer);
  for (let k = 0; k + 4 <= zip.length; k++)
    if (view.getUint32(k, true) === 0x02014b50) view.setUint32(k + 24, 500e6, true);
  const before = process.memoryUsage().arrayBuffers;
  let most = 0;
  for (const file of [small, zip]) {
    try {
      readDonor(file, 'part');
    } catch (error) {
      expect(error).toBeInstanceOf(DonorRefusal);
    }
    most = Math.max(most, process.memoryUsage().arrayBuffers - before);
  }
  expect(most).toBeLessThan(50e6);
});
