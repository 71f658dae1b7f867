import { up } from '../../solid/placement.ts';
import type { Shape } from '../../solid/shape.ts';
import type { Material } from '../../standards/materials.ts';
import { ratio, size } from '../choice.ts';
import type { Lay } from '../family.ts';
import type { Feature } from '../feature.ts';
import { step } from '../interface.ts';
import { type Rule, sane } from '../rule.ts';
import type { Drawn } from '../values.ts';
import { deskArea, footPad, type PadOutline, padBlock, padWidth } from './footPad.ts';
import { drawnFoot, type FootUnderLoad, footCompound, footFindings } from './footUnderLoad.ts';
import type { Corner, Stance } from './fourFeet.ts';

/** What may be set of a foot. */
export const footSizes = {
  width: size('width or diameter', { from: 6, to: 70, tip: 'Across the foot; in a recess it follows that' }),
  long: size('length', { from: 6, to: 90, tip: 'Front to back, of a rectangular foot' }),
  hardness: ratio('hardness', { from: 60, to: 95, tip: 'Shore A of TPU; other materials have none' }),
};

/** A foot under a machine whose underside is z = 0, or a riser under its foot. mm. */
export interface FootBody {
  readonly outline: PadOutline;
  /** Top of what gives way, along z, and its height from the desk to there under load. */
  readonly top: number;
  readonly asked: number;
  /** How far off that it may end, mm; absent: 0.2, what is felt as rocking. */
  readonly within?: number;
  /** Plastic above the top that carries nothing; absent: none. */
  readonly above?: number;
  /** Diameter of a round hollow about the axis, and whether it opens to the desk; absent: none. */
  readonly bore?: { readonly diameter: number; readonly toDesk: boolean };
  /** Taken out of the body alone, before anything else is put on it. */
  readonly hollow?: Shape | null;
  readonly material: Material;
  /** Shore A, for rubber. */
  readonly hardness: number;
  readonly stance: Stance;
  /** Where it stands; null: anywhere, one of four alike. */
  readonly corner: Corner | null;
  /** How far the four feet should stand out below the case, mm; null where old feet decide that. */
  readonly heights: readonly number[] | null;
  readonly drawn: Drawn;
}

/** How far a case may end off the asked height, mm. */
const WITHIN = 0.2;

/** Plastic that must be left around a hollow, mm; three lines of a common nozzle. Common practice, no source. */
const RIM = 1.2;

/** Along z, mm: desk face of the body as drawn. */
export const deskOf = (of: FootBody): number => of.top - (of.drawn.height ?? drawnFoot(underLoad(of)));

/** A foot's body: its plastic with a chamfered desk edge, its height (`height`, drawn so that it is the asked one
 *  under load), what it carries and how the machine stands on it. Sizes that a rule refuses are reckoned with as near
 *  as is possible, so that all rules are heard. */
export function footBody(of: FootBody): Feature {
  const { outline, top, above = 0, hollow = null, bore, asked, within = WITHIN } = of;
  const under = underLoad(of);
  const host = drawnFoot(under);
  const bottom = deskOf(of);
  // A height starts from the face that lies on the bed.
  const [start, end] = lyingOnTop(of) ? [top, bottom] : [bottom, top];
  const rim = (padWidth(outline) - (bore?.diameter ?? 0)) / 2;
  return {
    add: () => footPad(outline, { from: bottom, to: top + above }, hollow),
    interfaces: [
      step('height', {
        ...{
          name: of.heights === null ? 'lift of the riser' : 'height of the foot',
          host,
          fit: { lo: -within, hi: within },
        },
        ...{
          at: [0, 0, end],
          axis: [1, 0, 0],
          length: padWidth(outline),
          across: [0, 0, start < end ? -1 : 1],
        },
      }),
    ],
    rules: [
      sane(
        rim >= RIM,
        'width',
        `leaves no rim around the hollow in the foot (${rim.toFixed(2)} mm, at least ${RIM} mm; foot ${padWidth(outline).toFixed(2)} mm, hollow ${(bore?.diameter ?? 0).toFixed(2)} mm)`,
      ),
      sane(
        asked >= LOWEST,
        'tape',
        `is thicker than foot and recess together (${asked.toFixed(2)} mm are left of the foot, at least ${LOWEST} mm)`,
      ),
      ...leanRules(of),
    ],
    findings: ({ prints }) => footFindings(under, prints.height ?? host),
  };
}

/** Steepest a case may lean, as rise over run: 20 degrees. */
const STEEPEST = 0.36;

function leanRules({ heights, stance }: FootBody): Rule[] {
  if (heights === null) return [];
  const [frontLeft, frontRight, rearLeft, rearRight] = heights as [number, number, number, number];
  const rise = Math.abs(rearLeft + rearRight - frontLeft - frontRight) / 2;
  const apart = stance.places[2]![1];
  return [
    sane(
      rise <= STEEPEST * apart,
      'rearLeft',
      `and its neighbours lean the case so much that it slides off (rear and front differ by ${rise.toFixed(1)} mm over ${apart.toFixed(0)} mm)`,
    ),
  ];
}

/** Lowest foot, mm: five layers. */
const LOWEST = 1;

/** A foot whose hollow opens to the desk lies on its top, so that the seat in the hollow does not hang; others lie on
 *  the face that goes on the desk. */
export const footLay = (of: Pick<FootBody, 'bore'>): Lay =>
  lyingOnTop(of) ? { name: 'top down', turn: up['-z'] } : { name: 'as it stands', turn: up.z };

const lyingOnTop = ({ bore }: Pick<FootBody, 'bore'>): boolean => bore?.toDesk ?? false;

/** The body as a block under its load. */
export function underLoad(of: FootBody): FootUnderLoad {
  const { outline, top, material, hardness, stance, corner, heights, bore, drawn, within = WITHIN } = of;
  const asked = Math.max(LOWEST, of.asked);
  const diameter = Math.min(bore?.diameter ?? 0, 0.9 * padWidth(outline));
  const from = top - (drawn.height ?? asked);
  return {
    ...{ material, stance, corner, asked, heights, within },
    block: { outline: padBlock(outline, diameter), compound: footCompound(material, hardness) },
    area: deskArea(outline, { from, to: top }, lyingOnTop(of) ? diameter : 0),
    desk: [0, 0, from],
  };
}
