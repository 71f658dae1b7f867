import fc from 'fast-check';
import { strFromU8 } from 'fflate';
import { families } from '../../../parts/index.ts';
import { openBundle } from '../../../src/cli/bundle/openBundle.ts';
import { rawUnzip, rawZip } from '../../archive/rawZip.ts';
import { sha256 } from '../../job/hostileBundle.ts';
import { mustBeSoundFiles } from '../checks/soundFiles.ts';
import { commandRun } from '../commandRun.ts';
import { bundles } from '../corpus.ts';
import { edited, edits } from '../damage/bytes.ts';
import { changed, changes } from '../damage/json.ts';
import { way, written } from '../damage/text.ts';
import { repacked, zipChanges } from '../damage/zip.ts';
import { type Kind, kind, type Outcome } from '../kind.ts';

/** Somebody's bundle, and which sound one it was. */
interface Damaged {
  readonly from: number;
  readonly bytes: Uint8Array;
}

interface Handed extends Damaged {
  readonly asked: { readonly fresh: boolean; readonly all: boolean; readonly json: boolean };
}

async function opened({ from, bytes, asked }: Handed): Promise<Outcome> {
  const given = { 'any.fettle.zip': bytes };
  const run = await commandRun(given, (inFolder) =>
    openBundle(
      inFolder('any.fettle.zip'),
      { out: inFolder('out'), printer: undefined, replace: false, ...asked },
      families,
    ),
  );
  if (run.refused.length > 0) return { refused: run.refused };
  // Files of a bundle are whatever somebody put in; that all of them lie in the folder is what counts.
  const outside = [...run.files.keys()].filter((name) => !name.startsWith('out/') && !(name in given));
  if (outside.length > 0) throw new Error(`${outside.join(', ')} lies outside`);
  mustBeSoundFiles({ ...run, files: new Map() });
  return { made: asked.fresh ? `opened ${from} without readings` : `opened ${from}` };
}

const asked = fc.record({ fresh: fc.boolean(), all: fc.boolean(), json: fc.boolean() });
const sound = fc.constantFrom(...bundles().map((bytes, from) => ({ from, bytes })));
const handed = (name: string, few: number, damaged: fc.Arbitrary<Damaged>): Kind =>
  kind<Handed>({
    name,
    few,
    inputs: fc.tuple(damaged, asked).map(([one, how]) => ({ ...one, asked: how })),
    attempt: opened,
    files: ({ bytes: file }) => ({ 'any.fettle.zip': file }),
  });

const MANIFEST = 'fettle-bundle.json';

/** A bundle whose files were changed by somebody who knows what its list must say of them. */
const withinBundle = fc
  .tuple(sound, fc.constantFrom('job', 'printer', 'list', 'list'), changes, way, fc.boolean())
  .map(([{ from, bytes }, which, list, how, honest]) => {
    const entries = rawUnzip(bytes).map(({ name, data }) => ({ name, data }));
    const manifest = entries.find(({ name }) => name === MANIFEST)!;
    const told = JSON.parse(strFromU8(manifest.data)) as {
      files: { path: string; kind: string; bytes: number; sha256: string }[];
    };
    const entry = which === 'list' ? manifest : entries.find(({ name }) => name.endsWith(`.${which}.json`))!;
    entry.data = written(changed(JSON.parse(strFromU8(entry.data)), list), how);
    const listed = told.files.find(({ path }) => path === entry.name);
    if (honest && listed) {
      Object.assign(listed, { bytes: entry.data.length, sha256: sha256(entry.data) });
      manifest.data = new TextEncoder().encode(JSON.stringify(told));
    }
    return { from, bytes: rawZip(entries) };
  });

export const damagedBundles: readonly Kind[] = [
  handed(
    'damaged bundle',
    15,
    fc.tuple(sound, edits).map(([one, list]) => ({ ...one, bytes: edited(one.bytes, list) })),
  ),
  handed(
    'damaged archive of a bundle',
    15,
    fc.tuple(sound, zipChanges).map(([one, list]) => ({ ...one, bytes: repacked(one.bytes, list) })),
  ),
  handed('damaged files in a bundle', 15, withinBundle),
];
