import { type Sourced, sourced } from './friction.ts';

/** Plastics a thread-forming screw may go into: as moulded, and the filaments. */
export const pilotPlastics = [
  'ABS',
  'PC/ABS',
  'PA6-GF30',
  'PBT',
  'PC',
  'POM',
  'PP',
  'PS',
  'PLA',
  'PETG',
  'ASA',
  'PA12',
  'TPU',
] as const;
export type PilotPlastic = (typeof pilotPlastics)[number];

/** Boss for a thread-forming screw, each as a multiple of the nominal diameter of its thread. */
interface BossRule {
  readonly hole: Sourced;
  /** Outside diameter of the boss. */
  readonly boss: Sourced;
  /** Length of thread in the plastic. */
  readonly engagement: Sourced;
}

const MAKER = 'table of a maker of screws for plastics, moulded bosses';
const MEMORY = 'screws for plastics with a narrow flank angle, moulded bosses, from memory';
const PRINTED = 'printed bosses: common practice, no source; try one first';

/** General rules of the trade, whose three sources give 2.0 to 2.5 for the boss and 2.5 or more for the engagement. */
const BOSS_RANGE = [2, 2.5] as const;

const rule = (hole: number, boss: number, engagement: number, source: string, spread = 0.03): BossRule => ({
  hole: sourced(hole, hole - spread, hole + spread, source),
  boss: sourced(boss, Math.min(boss, BOSS_RANGE[0]), Math.max(boss, BOSS_RANGE[1]), source),
  engagement: sourced(engagement, Math.min(engagement, 2), 2.5, source),
});

const printed = (hole: number): BossRule => rule(hole, 2.5, 2.5, PRINTED, 0.05);

/** Rules by plastic. A printed hole is larger than a moulded one, as its wall of lines parts along the layers. */
const RULES: Readonly<Record<PilotPlastic, BossRule>> = {
  ABS: rule(0.8, 2, 2, MAKER),
  'PC/ABS': rule(0.8, 2, 2, MAKER),
  'PA6-GF30': rule(0.8, 2, 1.9, MAKER),
  PBT: rule(0.75, 1.85, 1.7, MAKER),
  PC: rule(0.85, 2.5, 2.2, MEMORY),
  POM: rule(0.75, 1.95, 2, MEMORY),
  PP: rule(0.7, 2, 2, MEMORY),
  PS: rule(0.8, 2, 2, MEMORY),
  PLA: printed(0.87),
  PETG: printed(0.85),
  ASA: printed(0.83),
  PA12: printed(0.8),
  TPU: printed(0.75),
};

/** Hole, boss and engagement for a thread-forming screw in plastic, mm. `diameter`, the nominal diameter of the screw's
 *  thread, in mm, above 0. Each with the range it may be set in and its source. Throws a RangeError for a diameter that is none.
 *  @example pilotHole('ABS', 3).hole.value // => 2.4
 *  @example pilotHole('PBT', 3).boss.value // => 5.55 */
export function pilotHole(plastic: PilotPlastic, diameter: number): BossRule {
  if (!(diameter > 0 && Number.isFinite(diameter)))
    throw new RangeError(`pilot hole requires a diameter above 0 mm (given ${diameter} mm)`);
  const scaled = ({ value, lo, hi, source }: Sourced): Sourced =>
    sourced(value * diameter, lo * diameter, hi * diameter, source);
  const { hole, boss, engagement } = RULES[plastic];
  return { hole: scaled(hole), boss: scaled(boss), engagement: scaled(engagement) };
}
