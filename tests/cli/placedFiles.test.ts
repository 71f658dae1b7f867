import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openPrinter } from '../../src/cli/openPrinter.ts';
import { changedJob, profileIn, profilePathOf, writeAfresh } from '../../src/cli/placedFiles.ts';
import { ChangedMeanwhile, RefusedFile } from '../../src/cli/refusedFile.ts';
import { writeEverywhere } from '../../src/cli/writeTogether.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { workshop } from './fettle.ts';

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());
const job = (content: object) => {
  const path = join(bench.folder, 'my.job.json');
  writeFileSync(path, JSON.stringify(content));
  return path;
};

describe('the file of the profile that a job names', () => {
  it('lies beside the job', async () => {
    expect(await profilePathOf(job({ printer: 'in/my.printer.json' }))).toBe(
      join(bench.folder, 'in/my.printer.json'),
    );
  });

  // A job that refits a model has a second source, its model, which is no profile and must never be written over.
  it('is none where the job holds its profile or has none, whatever else it names', async () => {
    expect(await profilePathOf(job({ printer: { name: 'p' }, donor: { file: 'part.stl' } }))).toBeUndefined();
    expect(await profilePathOf(job({ donor: { file: 'part.stl' } }))).toBeUndefined();
  });

  it('is refused anywhere else', async () => {
    await expect(profilePathOf(job({ printer: '../p.json' }))).rejects.toBeInstanceOf(RefusedFile);
  });
});

it('a job that is changed keeps everything else as it is in the file', async () => {
  const path = job({ note: 'as it is', readings: { bar: [1.6] } });
  const placed = await changedJob(path, (there) => ({ ...there, title: 'x' }));
  expect(JSON.parse(new TextDecoder().decode(placed.bytes))).toEqual({
    ...{ note: 'as it is', readings: { bar: [1.6] }, title: 'x' },
  });
  expect([placed.folder, placed.name]).toEqual([bench.folder, 'my.job.json']);
});

describe('a file that somebody else has changed since it was read', () => {
  const text = (path: string) => readFileSync(path, 'utf8');

  // Calibrating and judging a ladder or a trial all write the profile this way.
  it('is refused where it is a profile, and stays', async () => {
    const path = join(bench.folder, 'my.printer.json');
    writeFileSync(path, JSON.stringify(defaultPrinter));
    const profile = await openPrinter(path);
    const theirs = JSON.stringify({ ...defaultPrinter, name: 'theirs' });
    writeFileSync(path, theirs);
    const write = async () => writeEverywhere([await profileIn(path, profile)]);
    await expect(write()).rejects.toBeInstanceOf(ChangedMeanwhile);
    expect(text(path)).toBe(theirs);
    // Also with a job beside it: both or neither.
    const beside = job({ title: 'mine' });
    const both = async () =>
      writeEverywhere([
        await changedJob(beside, (there) => ({ ...there, title: 'x' })),
        await profileIn(path, profile),
      ]);
    await expect(both()).rejects.toMatchObject({ file: path });
    expect(JSON.parse(text(beside)).title).toBe('mine');
  });

  it('is refused where it is a job, unless what they wrote can stay', async () => {
    const path = job({ title: 'first' });
    await profilePathOf(path);
    job({ title: 'first', note: 'theirs' });
    const change = (there: JobFile): JobFile => ({ ...there, title: 'mine' });
    const strict = async () => writeEverywhere([await changedJob(path, change)]);
    await expect(strict()).rejects.toBeInstanceOf(ChangedMeanwhile);
    expect(JSON.parse(text(path))).toEqual({ title: 'first', note: 'theirs' });
    await writeEverywhere([await changedJob(path, change, { meanwhile: 'stays' })]);
    expect(JSON.parse(text(path))).toEqual({ title: 'mine', note: 'theirs' });
  });

  it('is read again where the change comes between reading and writing', async () => {
    const path = job({ readings: {} });
    let asked = 0;
    await writeAfresh(path, async () => {
      const placed = await changedJob(path, (there) => ({ ...there, title: 'mine' }), { meanwhile: 'stays' });
      if (asked++ < 3) job({ readings: {}, note: `theirs ${asked}` });
      return [placed];
    });
    expect(asked).toBe(4);
    expect(JSON.parse(text(path))).toEqual({ readings: {}, note: 'theirs 3', title: 'mine' });
  });
});
