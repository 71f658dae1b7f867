import { basename, join } from 'node:path';
import type { Family } from '../../family/family.ts';
import { canonical, sha256Hex } from '../../job/hash.ts';
import { ladder } from '../../job/ladder.ts';
import { ladderPart } from '../../job/ladderGroup.ts';
import type { LadderRecord } from '../../job/schema.ts';
import { FETTLE_VERSION } from '../../job/version.ts';
import { viewFrom } from '../../output/drawing/index.ts';
import { encodePng, picture } from '../../output/picture/index.ts';
import { stl } from '../../output/stl.ts';
import { printMinutes } from '../../printer/printMinutes.ts';
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

const PICTURE = { width: 1200, height: 640 } as const;

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
  const made = blaming(path, () => ladder(kernel, whole, name, { rungs, step }));
  const { prepared } = ladderPart(whole, name);
  const { job, family, material, printer } = prepared;
  const { group, volume, layers, extents, mesh } = made;

  const base = `${baseName(path, family.id)}-ladder-${group}`;
  const [model, shown] = [`${base}.stl`, `${base}.png`];
  await mustSpare(sources, out, [model, shown]);
  const title = job.title ?? family.title;
  const bytes = stl(mesh, {
    part: `ladder ${group}`,
    unit: 'mm',
    hash: sha256Hex(canonical({ record: made.record, version: FETTLE_VERSION })),
  });
  // From where the numbers stand upright: before the strip, a little to one side, high enough to read them.
  const long = extents[0] >= extents[1];
  const view = viewFrom(long ? [0.35, -1, 1.1] : [1, 0.35, 1.1]);
  const png = encodePng(
    picture([{ mesh, style: 'part' }], { ...PICTURE, view }),
    PICTURE.width,
    PICTURE.height,
  );
  const last = job.ladders?.[group];
  const record: LadderRecord = {
    date: today(),
    ...made.record,
    ...((last?.felt || last?.earlier) && { earlier: true }),
    // The same surface read once teaches the printer once: the next verdict takes the place of the last.
    ...(last?.learnt && { learnt: last.learnt }),
  };
  const remembered = await jobWith(path, group, record);
  await writeEverywhere([
    { folder: out, name: model, bytes },
    { folder: out, name: shown, bytes: png },
    remembered,
  ]);

  const mass = (volume / 1000) * material.density.value;
  const minutes = printMinutes(volume, layers, printer);
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
        {
          path: join(out, model),
          kind: 'stl',
          sha256: sha256Hex(bytes),
          triangles: mesh.triangles.length / 3,
        },
        { path: join(out, shown), kind: 'png', sha256: sha256Hex(png) },
        { path, kind: 'job', sha256: sha256Hex(remembered.bytes) },
      ],
      print: { lay: family.lay(prepared.values).name, volume, mass, minutes, layers, extents },
    };
    process.stdout.write(`${JSON.stringify(told, null, 2)}\n`);
    return;
  }
  const names = new Map(family.interfaces(prepared.values, {}).map((one) => [one.id, one.name] as const));
  const lines = ladderText(
    made,
    {
      title,
      made: `${material.name}, ${printer.name}`,
      nameOf: (id) => names.get(id) ?? id,
      lay: family.lay(prepared.values).name,
      mass,
      minutes,
      cautions: family.cautions(prepared.values),
      job: path,
      files: [join(out, model), join(out, shown), `${basename(path)} (remembers the numbers)`],
    },
    looksOf(process.stdout),
  );
  for (const line of lines) console.log(line);
}
