import { readFileSync } from 'node:fs';
import socketCover from '../../parts/socket-cover/index.ts';
import { askedReadings } from '../../src/family/family.ts';
import type { PlainJob } from '../job/demo.ts';

const text = readFileSync(new URL('../../parts/socket-cover/demo.job.json', import.meta.url), 'utf8');

/** The demo job of the cover, changed; a fresh copy each time. */
export function coverDemo(change: (job: PlainJob) => void = () => undefined): PlainJob {
  const job = { sizes: {}, fits: {}, ...JSON.parse(text) } as PlainJob;
  change(job);
  return job;
}

/** A cover with these choices, its readings typical, on the printer of the demo. */
export function coverJob(
  choices: Record<string, string>,
  change: (job: PlainJob) => void = () => undefined,
): PlainJob {
  return coverDemo((job) => {
    const normal = Object.entries(socketCover.choices).map(([id, choice]) => [id, choice.normal]);
    job.choices = { ...Object.fromEntries(normal), behind: 'low voltage only', ...choices };
    job.readings = Object.fromEntries(
      askedReadings(socketCover, job.choices).map(([id, { typical, times }]) => [
        id,
        Array.from({ length: times }, () => typical.toFixed(2)),
      ]),
    );
    Reflect.deleteProperty(job, 'texts');
    change(job);
  });
}

export const options = (id: string): readonly string[] => socketCover.choices[id]!.options;
