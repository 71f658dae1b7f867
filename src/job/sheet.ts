import { askedReadings, type Family } from '../family/family.ts';
import type { Values } from '../family/values.ts';
import type { SheetInput } from '../output/sheet/index.ts';
import { type ManifoldToplevel, withScope } from '../solid/kernel.ts';
import { meshOf } from '../solid/meshOf.ts';
import { realise } from '../solid/realise.ts';
import { findMaterial } from '../standards/materials.ts';
import { prepare } from './prepare.ts';
import { Refused } from './problem.ts';
import type { Job } from './schema.ts';

/** What the measuring sheet is drawn from: the family at typical sizes, with the job's choices and what it has read so
 *  far as text. A sheet is for measuring, so it must not hang on readings that are still to come. */
export function sheetInput(kernel: ManifoldToplevel, family: Family, job?: Job): SheetInput {
  const choices = Object.fromEntries(
    Object.entries(family.choices).map(([id, choice]) => [id, job?.choices[id] ?? choice.normal]),
  );
  const asked = new Set(askedReadings(family, choices).map(([id]) => id));
  const typical = Object.fromEntries(
    Object.entries(family.readings).map(([id, spec]) => [id, asked.has(id) ? spec.typical : Number.NaN]),
  );
  const material = findMaterial(job?.material ?? 'PETG') ?? findMaterial('PETG');
  const values = { ...typical, choices, texts: {}, material } as unknown as Values;
  Object.assign(values, family.normalSizes(values));
  return inputAt(kernel, family, values, job);
}

/** What the form to type into is drawn from: the part by its own readings where they make one, by typical ones before. */
export function formInput(kernel: ManifoldToplevel, family: Family, job: Job): SheetInput {
  try {
    return inputAt(kernel, family, prepare(job, family).values, job);
  } catch (error) {
    if (error instanceof Refused) return sheetInput(kernel, family, job);
    throw error;
  }
}

function inputAt(kernel: ManifoldToplevel, family: Family, values: Values, job?: Job): SheetInput {
  return withScope(kernel, (scope) => ({
    family,
    values,
    meshes: {
      part: meshOf(realise(scope, family.shape(values, {}))),
      hosts: family
        .host(values)
        .map(({ id, name, shape }) => ({ id, name, mesh: meshOf(realise(scope, shape)) })),
    },
    ...(job && {
      readings: Object.fromEntries(
        Object.entries(job.readings).map(([id, texts]) => [id, texts.map(String)]),
      ),
    }),
  }));
}
