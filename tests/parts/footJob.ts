import { readFileSync } from 'node:fs';
import type { PlainJob } from '../job/demo.ts';

const text = readFileSync(new URL('../../parts/case-foot/demo.job.json', import.meta.url), 'utf8');

/** Sensible readings for every kind of foot; a job reads only those it asks for. */
const READINGS: PlainJob['readings'] = {
  ...{ hole: ['6.52', '6.50', '6.53'], wall: ['2.46', '2.44'], screw: ['3.88', '3.90'], head: ['7.31'] },
  ...{
    headHeight: ['2.60'],
    recessDiameter: ['16.10', '16.05'],
    recessWidth: ['14.1'],
    recessLength: ['28.2'],
  },
  ...{ recessDepth: ['1.62'], height: ['9.02', '9.05'], frontLeft: ['9.0'], frontRight: ['9.0'] },
  ...{ rearLeft: ['12.0'], rearRight: ['12.0'], footDiameter: ['18.1', '18.0'], rise: ['18'] },
  ...{ weight: ['5.2 kg'], frontEdge: ['24'], apart: ['212'], across: ['304'] },
};

/** The demo's printer and callipers with a foot of these choices, changed; a fresh copy each time. */
export function footJob(
  choices: Readonly<Record<string, string>> = {},
  change: (job: PlainJob) => void = () => undefined,
): PlainJob {
  const job = { sizes: {}, fits: {}, ...JSON.parse(text) } as PlainJob;
  job.readings = structuredClone(READINGS);
  Object.assign(job.choices, choices);
  change(job);
  return job;
}

/** The demo job itself. */
export const footDemo = (): PlainJob => ({ sizes: {}, fits: {}, ...JSON.parse(text) }) as PlainJob;

export const footKinds = ['push-in', 'screw-on', 'stick-on', 'riser'] as const;
export const footShapes = ['round', 'rectangular'] as const;
