import { isoFit } from '../standards/iso286/isoFit.ts';
import { fitClasses } from './classes.ts';
import type { FitClass, Window } from './types.ts';

const isClass = (name: string): name is FitClass => Object.hasOwn(fitClasses, name);

/** A fit by its name: one of the classes, or an ISO 286-1 code such as H8/f7, whose least and greatest clearance at that
 *  size become the window. Capital letters are the hole and come first, whichever of the two is printed. `size`, of the
 *  machine, in mm. Throws `TableRefusal` for codes and sizes that the standard does not have.
 *  @example namedFit('snug', 25) // => 'snug'
 *  @example namedFit('H8/f7', 25) // => { lo: 0.02, hi: 0.074 } */
export function namedFit(name: string, size: number): FitClass | Window {
  return isClass(name) ? name : isoFit(name, size).clearance;
}
