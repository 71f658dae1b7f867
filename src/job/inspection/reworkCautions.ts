import type { Rework } from './rework.ts';

/** What to mind when plastic is taken off a print. Common practice, no source; the makers of tools and material, and local
 *  rules, go before it. */
const CAUTIONS: Readonly<Record<'dust' | 'file' | 'drill' | 'machine', string>> = {
  file: 'a file has a handle on its tang, the part is held in a vice with soft jaws or flat on the bench, never against the hand; fingers stay off the line of the stroke, and glasses on',
  drill:
    'a drill that grips in plastic spins the part: hold the part in a vice, turn the drill in a hand chuck, no gloves, no loose sleeves, glasses on',
  dust: 'plastic dust is not to be breathed or blown about: work damp, with a dust mask and the window open, and wipe up',
  machine:
    'work away from the machine: dust and shavings in switches, bearings or a power supply do harm; wash and dry the part before it is tried',
};

/** Cautions for these ways of rework, each once. */
export function reworkCautions(tools: readonly Rework['tool'][]): readonly string[] {
  if (tools.length === 0) return [];
  return [
    ...(tools.some((tool) => tool !== 'drill') ? [CAUTIONS.file] : []),
    ...(tools.includes('drill') ? [CAUTIONS.drill] : []),
    CAUTIONS.dust,
    CAUTIONS.machine,
  ];
}
