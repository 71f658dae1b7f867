import type { Material } from '../../standards/materials.ts';
import { circularPlate } from '../../strength/circularPlate.ts';
import { FINGER_FORCE, FINGER_PAD, fingerPush } from '../../strength/fingerPush.ts';
import type { PlateBending } from '../../strength/plate.ts';
import { rectangularPlate } from '../../strength/rectangularPlate.ts';
import { stripBending } from '../../strength/stripBending.ts';
import type { FamilyFinding } from '../familyFinding.ts';
import type { Feature } from '../feature.ts';
import type { PanelOpening } from './panelOpening.ts';

/** A plate that a finger pushes in the middle, held on the edge of an opening, mm. */
export interface FingerPlate {
  readonly opening: PanelOpening;
  readonly thickness: number;
  /** How deep letters are sunk into it; 0 without. */
  readonly sunk: number;
  /** What is cut through it: a hole, upright slots; null without. */
  readonly hole: number | null;
  readonly slots: { readonly vent: number; readonly bar: number } | null;
  readonly material: Material;
}

/** Bending that is seen and felt, mm, and the share of the strength that is used. Common practice, no source. */
const GIVES = 1;
const SHARE = 0.5;

/** A way of looking at the plate, and how it bends so. */
interface Bent {
  readonly bending: PlateBending;
  readonly as: string;
  readonly thickness: number;
}

/** How the plate gives way under a finger: whole, as a thin plate on its edge, as thin as its letters leave it; with holes or slots, as the strip
 *  that is left of it, which is an upper bound. Walls and arms on its back would only stiffen it. D and slotted openings count as the
 *  rectangle around them. Of several ways to look at it, the one with the most stress.
 *  @example 90 x 60, 2 mm of PETG: fingerBending(plate).as // => 'a plate on its four edges' */
export function fingerBending(of: FingerPlate): Bent {
  const { opening, thickness, sunk, hole, slots } = of;
  const thin = thickness - sunk;
  if (hole === null && slots === null) return { ...whole(of, thin), thickness: thin };
  // Slots stand upright, so that what is left runs from the lower to the upper edge.
  const bars = slots === null ? 1 : slots.bar / (slots.bar + slots.vent);
  const beside = hole === null ? FINGER_PAD : Math.min(FINGER_PAD, opening.width - hole);
  const name = hole === null ? 'slots leave' : slots === null ? 'the hole leaves' : 'slots and hole leave';
  const cut = strip(of, thickness, beside * bars, `that ${name} under it`);
  if (sunk === 0) return cut;
  const lettered = strip(of, thin, FINGER_PAD, 'under it, at the letters');
  return lettered.bending.stress > cut.bending.stress ? lettered : cut;
}

const plateOf = ({ material }: FingerPlate, thickness: number) => ({
  ...{ thickness, modulus: material.modulusAlong.value, poisson: material.poisson.value },
});

function whole(of: FingerPlate, thickness: number): Omit<Bent, 'thickness'> {
  const { form, width, height } = of.opening;
  const plate = plateOf(of, thickness);
  const push = fingerPush(Math.min(width, height));
  return form === 'round'
    ? {
        bending: circularPlate({ ...plate, diameter: width, edge: 'simple' }, push),
        as: 'a round plate on its edge',
      }
    : {
        bending: rectangularPlate({ ...plate, length: width, width: height, edge: 'simple' }, push),
        as: 'a plate on its four edges',
      };
}

function strip(of: FingerPlate, thickness: number, wide: number, which: string): Bent {
  const { width, height } = of.opening;
  const cut = { span: height, width: Math.min(width, wide), ends: 'simple' } as const;
  return {
    bending: stripBending(
      { ...plateOf(of, thickness), ...cut },
      { force: FINGER_FORCE, spread: Math.min(FINGER_PAD, height) },
    ),
    ...{
      as: `the strip of ${cut.width.toFixed(1)} mm ${which}, from edge to edge (an upper bound)`,
      thickness,
    },
  };
}

/** A finger's push on a cover: how far it bends, and what it stresses the plastic.
 *  @example fingerPlate(plate, [0, 0, 2]).findings?.(made).map(({ id }) => id) // => ['finger.stress', 'finger.bend'] */
export function fingerPlate(of: FingerPlate, at: readonly [number, number, number]): Feature {
  return {
    findings: () => {
      const { bending, as, thickness } = fingerBending(of);
      const strength = of.material.strengthAlong;
      const limit = SHARE * strength.lo;
      const source =
        'thin plate: Timoshenko and Woinowsky-Krieger; strip: beam relations; force: IEC 60529, numeral 2; limits: common practice, no source';
      const how = `${FINGER_FORCE} N on a finger tip bend ${as}, ${thickness.toFixed(2)} mm thick,`;
      const found: FamilyFinding[] = [
        {
          ...{
            id: 'finger.stress',
            title: "stress under a finger's push",
            value: bending.stress,
            limit,
            unit: 'MPa',
          },
          ...{ side: 'below', source: `${source}; ${strength.source}`, at },
          because: `${how} with ${bending.stress.toFixed(1)} MPa; half of the least strength of ${of.material.name} is ${limit.toFixed(1)} MPa`,
          remedy: 'a thicker plate, or less cut out of it: a smaller hole, narrower slots, no letters',
        },
        {
          ...{
            id: 'finger.bend',
            title: "bending under a finger's push",
            value: bending.deflection,
            limit: GIVES,
            unit: 'mm',
          },
          ...{ side: 'below', missed: 'caution', source, at },
          because: `${how} by ${bending.deflection.toFixed(2)} mm${bending.holds ? '' : ', if a plate so thick or so bent were thin'}`,
          remedy: 'a thicker plate',
          details: {
            'span over thickness': bending.spanOverThickness,
            'bending over thickness': bending.deflectionOverThickness,
          },
        },
      ];
      return found;
    },
  };
}
