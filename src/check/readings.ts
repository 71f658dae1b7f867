import type { Check } from './context.ts';

/** Readings that stand out: dropped by nobody, pointed out by name. A likely nominal size is information and stays with
 *  the dimension. */
export const readings: Check = ({ dimensions }) =>
  Object.values(dimensions).flatMap((dimension) =>
    dimension.remarks
      .filter(({ kind }) => kind !== 'nominal')
      .map((remark) => ({
        id: `reading.${dimension.id}.${remark.kind}${remark.index === undefined ? '' : `.${remark.index + 1}`}`,
        title: `${dimension.name}, a reading that stands out`,
        verdict: 'caution' as const,
        value: remark.value,
        limit: null,
        unit: dimension.unit,
        margin: null,
        because: remark.sentence,
        source: 'readings held against each other and against the range of the sheet',
        remedy: `read the ${dimension.name} again; if the odd one was a slip, take it out of the job`,
        at: null,
      })),
  );
