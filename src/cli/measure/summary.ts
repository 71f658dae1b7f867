import type { Reading } from '../../job/takenReading.ts';
import { unitOf } from '../../measure/index.ts';

/** Whether nothing stands in for a reading that nobody takes. */
const needed = (spec: Reading['spec']): boolean => spec.otherwise === undefined && !spec.optional;

/** What is still to be read and what to do next, as lines. A reading without which the part cannot be made is missing;
 *  one with fewer numbers than the sheet asks for only makes the answer less certain. */
export function summary(path: string, readings: readonly Reading[]): readonly string[] {
  const missing = readings.filter(({ texts, spec }) => texts.length === 0 && needed(spec));
  const assumed = readings.filter(({ texts, spec }) => texts.length === 0 && spec.otherwise !== undefined);
  const few = readings.filter(({ texts, spec }) => texts.length > 0 && texts.length < spec.times);
  return [
    '',
    ...(missing.length === 0 ? [] : [`still to be read: ${missing.map(({ spec }) => spec.name).join(', ')}`]),
    ...(few.length === 0
      ? []
      : [
          `fewer than asked: ${few.map(({ texts, spec }) => `${spec.name} (${texts.length} of ${spec.times})`).join(', ')}`,
        ]),
    ...assumed.map(
      ({ spec }) => `not read: ${spec.name}; ${spec.otherwise!.value} ${unitOf(spec)} will be taken`,
    ),
    ...(missing.length + few.length + assumed.length === 0 ? ['every reading is there'] : []),
    missing.length === 0 ? `next: fettle make ${path} --out out` : `next: fettle measure ${path}`,
  ];
}
