import { readFileSync } from 'node:fs';
import { families } from '../../../parts/index.ts';
import { drawingInput } from '../../../src/job/drawing.ts';
import type { Prepared } from '../../../src/job/prepare.ts';
import { readJob } from '../../../src/job/readJob.ts';
import { type ScenePart, sceneOf } from '../../../src/job/scene.ts';
import { type PartDrawingInput, partDrawing } from '../../../src/output/partDrawing/index.ts';
import { loadKernel } from '../../../src/solid/kernel.ts';
import { read } from '../../job/demo.ts';
import { coverJob } from '../../parts/coverJob.ts';
import { footJob } from '../../parts/footJob.ts';

const kernel = await loadKernel();

/** A job with its drawings. */
export interface DrawnJob {
  readonly scene: readonly ScenePart[];
  readonly inputs: readonly PartDrawingInput[];
  readonly sheets: readonly string[];
}

export function drawn(prepared: Prepared): DrawnJob {
  const scene = sceneOf(kernel, prepared);
  const { job, family, material, printer } = prepared;
  const inputs = drawingInput(
    {
      job: {
        family: family.id,
        title: job.title ?? family.title,
        quantity: job.quantity,
        material: material.name,
        printer: printer.name,
        calibrated: printer.calibrated,
        hash: '0123456789abcdef'.repeat(4),
      },
    },
    scene,
  );
  return { scene, inputs, sheets: inputs.map(partDrawing) };
}

/** Every demo job, and jobs of parts that look otherwise: a set of four, round posts, bores with flats, screws. */
export const drawnJobs: readonly (readonly [string, DrawnJob])[] = [
  ...families.map(({ id }) => {
    const text = readFileSync(new URL(`../../../parts/${id}/demo.job.json`, import.meta.url), 'utf8');
    return [`demo of ${id}`, drawn(readJob(text, families))] as const;
  }),
  ['feet each of its own height', drawn(read(footJob({ kind: 'stick-on', feet: 'each' })))],
  ['riser, rectangular', drawn(read(footJob({ kind: 'riser', shape: 'rectangular' })))],
  ['cover with screws', drawn(read(coverJob({ held: 'screws' })))],
  ['cover with a connector', drawn(read(coverJob({ connector: 'D', held: 'glue' })))],
];
