import { fireEnclosureMaterial } from '../../standards/enclosureOpenings.ts';
import type { Material } from '../../standards/materials.ts';
import { oneOf } from '../choice.ts';
import type { FamilyFinding } from '../familyFinding.ts';
import type { Feature } from '../feature.ts';

/** What may lie behind an opening. Nobody but the person at the bench can know, so what is not known counts as the worst. */
const dangers = ['mains or unknown', 'picture tube', 'hot parts', 'low voltage only'] as const;
type DangerBehind = (typeof dangers)[number];

/** The choice that says it; the careful one is normal. */
export const dangerChoice = oneOf(
  'behind the panel',
  dangers,
  'mains or unknown',
  'What a finger or a wire could reach through the opening: say low voltage only when you are sure',
);

/** Highest voltage that counts as extra-low, V a.c. and V d.c.: band I of IEC 60449; from memory. */
const EXTRA_LOW = { ac: 50, dc: 120, source: 'IEC 60449, voltage band I; from memory' } as const;
/** Single-phase mains at its highest, V. */
const MAINS = 250;
/** Least of the anode voltages of picture tubes in desktop machines, V. Common knowledge, no source. */
const TUBE = 9000;
/** What power resistors, regulators and lamps reach, degC. Common knowledge, no source. */
const HOT = 100;

const RATED = `Printed plastic is no rated enclosure: it has no flame class (such an enclosure wants ${fireEnclosureMaterial.upTo18kg} or better), its wall may be porous, and no test finger was ever put to it`;
const DECIDE =
  'Local electrical codes and a qualified person decide whether an opening may be covered so; where mains, a power supply, a battery charger or the high voltage of a picture tube can be reached, the answer is an original or approved part';
const OFF =
  'Pull the mains plug before the panel comes off, and leave a machine with a picture tube closed unless you are qualified: the tube holds a charge long after it is switched off';

/** Caution, not permission: unless low voltage only is said to lie behind, a finding fails and Fettle calls no part fit for it. Never certifies.
 *  @example notFitFor('mains or unknown', material, [0, 0, 2]).findings?.(made)[0]?.id // => 'behind' */
export function notFitFor(
  danger: string,
  material: Material | undefined,
  at: readonly [number, number, number],
): Feature {
  const known = dangers.find((one) => one === danger) ?? 'mains or unknown';
  const cautions = danger === 'hot parts' ? [HEAT, RATED, DECIDE, OFF] : [RATED, DECIDE, OFF];
  return { cautions, findings: () => [findingOf(known, material, at)] };
}

const HEAT =
  'Plastic near hot parts softens, creeps and may char: keep it away from anything too hot to hold a finger on, and leave vents open';

function findingOf(
  danger: DangerBehind,
  material: Material | undefined,
  at: readonly [number, number, number],
): FamilyFinding {
  const refused = 'Fettle does not call this part fit for it';
  const common = { id: 'behind', side: 'below', at } as const;
  const volts = { unit: 'V', limit: EXTRA_LOW.ac, source: EXTRA_LOW.source };
  const remedy =
    'an original or approved part, fitted by a qualified person; or, where you know better, say in the job what lies behind';
  switch (danger) {
    case 'low voltage only':
      return {
        ...{ ...common, ...volts, title: 'what lies behind the opening', value: EXTRA_LOW.ac, remedy },
        because: `the job says low voltage only: at most ${EXTRA_LOW.ac} V a.c. or ${EXTRA_LOW.dc} V d.c. and nothing hot. Fettle cannot see that, and this is no permission`,
      };
    case 'mains or unknown':
      return {
        ...{ ...common, ...volts, title: 'mains voltage may lie behind the opening', value: MAINS, remedy },
        because: `mains or unknown lies behind, up to ${MAINS} V, and ${refused}: printed plastic is no rated enclosure; local electrical codes and a qualified person decide`,
      };
    case 'picture tube':
      return {
        ...{ ...common, ...volts, title: 'the high voltage of a picture tube', value: TUBE, remedy },
        because: `a picture tube holds ${TUBE} V and more, long after it is switched off, and ${refused}; opening such a machine is for qualified people`,
      };
    case 'hot parts': {
      const bears = material?.serviceTemperature;
      return {
        ...{
          ...common,
          title: 'hot parts behind the opening',
          value: HOT,
          limit: bears?.value ?? 0,
          unit: 'degC',
          remedy,
        },
        because: `parts that get hot reach ${HOT} degC, ${material?.name} keeps its shape up to ${bears?.value.toFixed(0)} degC, and ${refused}`,
        source: `${bears?.source}; what parts reach: common knowledge, no source`,
      };
    }
  }
}
