import { askedReadings, type Family } from '../family/family.ts';
import type { JobFile } from './schema.ts';

/** A job with nothing read yet: every choice at its normal value, every reading it asks for an empty list. */
export function newJob(
  family: Family,
  told: { title?: string; material?: string; quantity?: number } = {},
): JobFile {
  const choices = Object.fromEntries(
    Object.entries(family.choices).map(([id, choice]) => [id, choice.normal]),
  );
  return {
    fettle: 1,
    family: family.id,
    title: told.title ?? family.title,
    quantity: told.quantity ?? 1,
    unit: 'mm',
    callipers: { scale: 'digital', resolution: '0.01', zero: '0' },
    readings: Object.fromEntries(askedReadings(family, choices).map(([id]) => [id, []])),
    choices,
    material: told.material ?? 'PETG',
  };
}
