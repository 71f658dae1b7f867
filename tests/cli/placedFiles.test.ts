import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { changedJob, profilePathOf } from '../../src/cli/placedFiles.ts';
import { RefusedFile } from '../../src/cli/refusedFile.ts';
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
