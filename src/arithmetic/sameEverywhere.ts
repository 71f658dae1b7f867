import * as functions from './functions.ts';

/** Puts functions in the place of those of `Math` whose last digit the standard leaves to each engine (ECMA-262, section
 *  21.3.2: "implementation-approximated"), computed from sums, products, quotients and square roots alone, which IEEE 754
 *  rounds alike everywhere. So a job has the same bytes in every browser and in every version of Node: a sine that differs in
 *  its last digit splits a square along the other diagonal. For composition roots, before anything is computed; what it gives
 *  is good to a few units of the last digit. `a ** b` asks nobody: `power` is for that. */
export function sameEverywhere(): void {
  Object.assign(Math, functions);
}
