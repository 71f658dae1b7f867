import type { Prepared } from './prepare.ts';
import type { Problem } from './problem.ts';

/** What of a job is printed with. */
type Printing = Pick<Prepared, 'printer' | 'material'>;

/** What of it decides how the whole plate is printed. */
const deciding: readonly (readonly [field: string, of: (printing: Printing) => string])[] = [
  ['printer.name', ({ printer }) => printer.name],
  ['material', ({ material }) => material.name],
  ['printer.layer', ({ printer }) => `${printer.layer} mm`],
  ['printer.firstLayer', ({ printer }) => `${printer.firstLayer} mm`],
  ['printer.lineWidth', ({ printer }) => `${printer.lineWidth} mm`],
  ['printer.bed', ({ printer: { bed } }) => `${bed.x} x ${bed.y} x ${bed.z} mm`],
];

/** In what a job differs from the first one of a plate, so that they cannot be printed in one go; empty when it does not.
 *  `first` is what the first job is called. */
export function plateAgreement(one: Printing, with_: Printing, first: string): readonly Problem[] {
  return deciding.flatMap(([field, of]) => {
    const [given, wanted] = [of(one), of(with_)];
    if (given === wanted) return [];
    return [
      {
        code: 'plate_differs',
        field,
        value: given,
        allowed: `${wanted}, as in ${first}`,
        reason: 'is printed at once with the others',
      },
    ];
  });
}
