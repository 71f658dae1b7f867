import type { MaterialName } from './materials.ts';

const STYRENE =
  'gives off styrene and fine particles when printed: print it in a ventilated room nobody sleeps in, and follow the safety sheet of its maker';
const PARTICLES =
  'gives off fine particles when printed: air the room, and follow the safety sheet of its maker';

/** What to mind when a material is printed, as the end of a sentence that starts with its name. Common practice, no
 *  source; local rules and the maker's safety sheet go before it. */
export const printingCautions: Readonly<Record<MaterialName, string>> = {
  PLA: PARTICLES,
  PETG: PARTICLES,
  ABS: STYRENE,
  ASA: STYRENE,
  PA12: `${PARTICLES}; as powder it must not be breathed or meet a flame`,
  TPU: PARTICLES,
};
