import { type MaterialName, materials } from '../../src/standards/materials.ts';

/** How it is at the bench; common practice, no source. */
const character: Readonly<Record<MaterialName, string>> = {
  PLA: 'prints easily and stiff, breaks rather than bends, creeps when warm',
  PETG: 'tough, gives before it breaks, strings a little',
  ABS: 'what old machines are made of; shrinks, wants a closed printer, smells',
  ASA: 'as ABS, and daylight does not yellow it so soon',
  PA12: 'slippery and tough, wears well; must be kept dry',
  TPU: 'rubber: for feet and pads, not for arms that hold',
};

/** What a material is like, in a few words and two numbers: the warmest it may get under load, and what its arms may be
 *  strained once, along the layers.
 *  @example materialWords('PETG').numbers // => 'up to 62 °C; arms may strain 2.6 % once' */
export function materialWords(name: MaterialName): { readonly character: string; readonly numbers: string } {
  const { serviceTemperature, permissible } = materials[name];
  const strain = 100 * permissible.onceAlong.value;
  const shown = strain >= 10 ? strain.toFixed(0) : strain.toFixed(1);
  return {
    character: character[name],
    numbers: `up to ${serviceTemperature.value}\u00a0°C; arms may strain ${shown}\u00a0% once`,
  };
}
