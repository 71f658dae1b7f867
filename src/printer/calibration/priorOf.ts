import { defaultPrinter } from '../defaultPrinter.ts';
import { knownOf } from '../parameters.ts';
import { type Known, PARAMETERS, type PrinterProfile } from '../types.ts';

/** What is known of a printer before its coupon is read, in the order of `PARAMETERS`. Of a printer already calibrated
 *  that is what is known of any printer: its own values came from an earlier coupon, which may have been of another
 *  material or before a repair, and which must not be counted as if it had been read today.
 *  @example priorOf(defaultPrinter)[3] // => { value: 0.05, u: 0.0577... } */
export function priorOf(profile: PrinterProfile): readonly Known[] {
  const source = profile.calibrated === null ? profile : defaultPrinter;
  return PARAMETERS.map((parameter) => knownOf(source, parameter));
}
