import { basename, join } from 'node:path';
import type { Family } from '../../family/family.ts';
import { drawnLadder } from '../../job/drawnLadder.ts';
import { sha256Hex } from '../../job/hash.ts';
import { loadKernel } from '../../solid/kernel.ts';
import { baseName } from '../fileNames.ts';
import { mustSpare } from '../mustSpare.ts';
import { openPrepared } from '../openJob.ts';
import { blaming } from '../refusedFile.ts';
import { looksOf } from '../terminal.ts';
import { today } from '../today.ts';
import { writeEverywhere } from '../writeTogether.ts';
import { jobWith } from './ladderStore.ts';
import { ladderText } from './ladderText.ts';

interface DrawOptions {
  readonly out: string;
  readonly json: boolean;
  readonly rungs: number | undefined;
  readonly step: number | undefined;
}

/** Draws a ladder, writes its files and what the job has to remember, all or none, and prints what to do with it.
 *  Throws `RefusedFile`. */
export async function drawLadder(
  path: string,
  name: string,
  { out, json, rungs, step }: DrawOptions,
  families: readonly Family[],
): Promise<void> {
  const { prepared: whole, sources } = await openPrepared(path, families);
  const kernel = await loadKernel();
  const base = baseName(path, whole.family.id);
  const drawn = blaming(path, () => drawnLadder(kernel, whole, name, { rungs, step, base, date: today() }));
  const { ladder: made, prepared, record, lay, mass, minutes } = drawn;
  const { job, family, material, printer } = prepared;
  const { group, volume, layers, extents, mesh } = made;
  await mustSpare(
    sources,
    out,
    drawn.files.map((file) => file.name),
  );
  const title = job.title ?? family.title;
  const remembered = await jobWith(path, group, record);
  await writeEverywhere([
    ...drawn.files.map((file) => ({ folder: out, name: file.name, bytes: file.bytes })),
    remembered,
  ]);

  if (json) {
    const told = {
      job: { title, family: family.id, printer: printer.name, material: material.name },
      group,
      step: made.step,
      stepped: made.stepped,
      free: made.free,
      rungs: made.rungs,
      doubt: record.doubt,
      window: record.window,
      files: [
        ...drawn.files.map((file) => ({
          ...{ path: join(out, file.name), kind: file.kind, sha256: sha256Hex(file.bytes) },
          ...(file.kind === 'stl' && { triangles: mesh.triangles.length / 3 }),
        })),
        { path, kind: 'job', sha256: sha256Hex(remembered.bytes) },
      ],
      print: { lay, volume, mass, minutes, layers, extents },
    };
    process.stdout.write(`${JSON.stringify(told, null, 2)}\n`);
    return;
  }
  const lines = ladderText(
    made,
    {
      title,
      made: `${material.name}, ${printer.name}`,
      nameOf: (id) => drawn.names[id] ?? id,
      lay,
      mass,
      minutes,
      cautions: drawn.cautions,
      job: path,
      files: [
        ...drawn.files.map((file) => join(out, file.name)),
        `${basename(path)} (remembers the numbers)`,
      ],
    },
    looksOf(process.stdout),
  );
  for (const line of lines) console.log(line);
}
