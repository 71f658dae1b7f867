import type { Material } from '../../standards/materials.ts';
import { contactPressure, MARKING_PRESSURE } from '../../strength/contactPressure.ts';
import { tiltAngle } from '../../strength/riserStability.ts';
import { NOTICED_GAP, rockingGap } from '../../strength/rockingGap.ts';
import { compressBlock, freeHeight, pressBlock, type RubberBlock } from '../../strength/rubberBlock.ts';
import { isRubberLike, printedRubber, type RubberCompound } from '../../strength/rubberCompound.ts';
import type { FamilyFinding } from '../familyFinding.ts';
import { type Corner, corners, type Stance } from './fourFeet.ts';

/** Hardness that the table of materials stands for; other filaments are reckoned from what is on the spool. */
const USUAL_HARDNESS = 95;

/** What a foot of a material is made of, as a block under load: rubber, or a stiff plastic that hardly gives.
 *  `shoreA` counts for rubber only; 95 is the material as its table has it. */
export function footCompound(material: Material, shoreA: number): RubberCompound {
  if (!isRubberLike(material))
    return { modulus: material.modulusAcross.value, shapeShare: 0, bulk: Number.POSITIVE_INFINITY };
  return shoreA === USUAL_HARDNESS ? printedRubber(material) : printedRubber(material, shoreA);
}

type Unsized = Omit<RubberBlock, 'height'>;

/** A foot under a machine. Heights in mm from the face that stays to the desk. */
export interface FootUnderLoad {
  readonly block: Unsized;
  readonly material: Material;
  readonly stance: Stance;
  /** Where it stands; null for any of four alike. */
  readonly corner: Corner | null;
  /** Height it should have under load, of what gives way. */
  readonly asked: number;
  /** How far each of the four feet should stand out below the case; null where old feet decide that. */
  readonly heights: readonly number[] | null;
  /** How far off the asked height it may end, mm. */
  readonly within: number;
  /** What of it touches the desk, mm^2. */
  readonly area: number;
  /** Desk face in the frame of the part. */
  readonly desk: readonly [number, number, number];
}

const loadsOn = ({ stance, corner }: Pick<FootUnderLoad, 'stance' | 'corner'>, of: 'expected' | 'most') =>
  corner === null ? stance[of] : [stance[of][corner]!];

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

/** Height to draw, mm, so that the foot is as high as asked under what it is expected to carry; feet that are all
 *  alike are drawn for the mean. */
export const drawnFoot = (foot: Pick<FootUnderLoad, 'block' | 'stance' | 'corner' | 'asked'>): number =>
  freeHeight(foot.block, foot.asked, mean(loadsOn(foot, 'expected')));

/** A rubber foot is kept below this strain, so that it creeps little; common practice, no source. A stiff one below
 *  this share of its strength, for a load that stays; common practice, no source. */
const LASTING = { strain: 0.15, share: 0.25 } as const;

/** What is to be said of a foot under its load, `printed` mm high off the printer: what it carries, how high it stands
 *  then, what it does to the desk, whether the machine rocks, and how it leans. */
export function footFindings(foot: FootUnderLoad, printed: number): FamilyFinding[] {
  return [loadFinding(foot, printed), heightFinding(foot, printed), ...standFindings(foot, printed)];
}

function loadFinding(foot: FootUnderLoad, printed: number): FamilyFinding {
  const { block, material, stance } = foot;
  const sized = { ...block, height: printed };
  const rubber = isRubberLike(material);
  const worst = Math.max(...loadsOn(foot, 'most'));
  const bears = rubber
    ? pressBlock(sized, LASTING.strain * printed).force
    : LASTING.share * material.strengthAcross.value * foot.area;
  const { strain, bulge } = compressBlock(sized, worst);
  return {
    ...{ id: 'load', title: 'load on the foot', value: worst, limit: bears, side: 'below', unit: 'N' },
    because: `${range(loadsOn(foot, 'expected'))} N of the machine's ${stance.weight.toFixed(1)} N are expected on it; standing on three feet, with the balance point ${stance.centre.doubt.toFixed(0)} mm off, up to ${worst.toFixed(1)} N. ${
      rubber
        ? `Rubber keeps its height when pressed by no more than ${100 * LASTING.strain} %`
        : `A quarter of the strength of ${material.name} is left for a load that stays`
    }`,
    source: `statics of every three feet; ${rubber ? 'rubber block after Gent and Lindley' : material.strengthAcross.source}; limit: common practice, no source`,
    remedy: 'a wider foot, or a harder material',
    at: foot.desk,
    details: { 'strain under it, %': 100 * strain, 'bulge under it, mm': bulge },
  };
}

function heightFinding(foot: FootUnderLoad, printed: number): FamilyFinding {
  const { block, asked } = foot;
  const loads = loadsOn(foot, 'expected');
  const standing = loads.map((load) => compressBlock({ ...block, height: printed }, load));
  const worst = standing.reduce((a, b) => (Math.abs(b.height - asked) > Math.abs(a.height - asked) ? b : a));
  return {
    ...{ id: 'stands', title: 'height under the machine', value: Math.abs(worst.height - asked) },
    ...{ limit: foot.within, side: 'below', missed: 'caution', unit: 'mm', at: foot.desk },
    because: `prints ${printed.toFixed(2)} mm high and gives way ${worst.deflection.toFixed(2)} mm under ${worst.force.toFixed(1)} N: ${worst.height.toFixed(2)} mm stay, ${asked.toFixed(2)} mm asked`,
    source:
      'rubber block after Gent and Lindley, large strains after Lindley; creep adds some hundredths of what it gives',
    remedy: 'thinner layers, feet each of their own height, or a harder material',
    details: {
      'free height, mm': printed,
      'gives way, mm': worst.deflection,
      'bulge, mm': worst.bulge,
      'modulus of the block, MPa': worst.modulus,
    },
  };
}

function standFindings(foot: FootUnderLoad, printed: number): FamilyFinding[] {
  const { area, desk, heights } = foot;
  const value = contactPressure(Math.max(...loadsOn(foot, 'expected')), area);
  return [
    {
      ...{ id: 'pressure', title: 'pressure on the desk', value, limit: MARKING_PRESSURE },
      ...{ side: 'below', missed: 'caution', unit: 'MPa', at: desk },
      because: `${range(loadsOn(foot, 'expected'))} N on ${area.toFixed(0)} mm2; from ${MARKING_PRESSURE} MPa on a foot marks varnish and soft tops in time`,
      source: 'mean over the face; limit: common practice, no source',
      remedy: 'a wider foot, or a mat under it',
    },
    ...(heights === null ? [] : [rockingFinding(foot, heights, printed)]),
    ...(heights === null || foot.corner === null ? [] : [leanFinding(foot, heights)]),
  ];
}

function rockingFinding(foot: FootUnderLoad, heights: readonly number[], printed: number): FamilyFinding {
  const { block, stance, corner, asked, desk } = foot;
  const load = mean(loadsOn(foot, 'expected'));
  const own = compressBlock({ ...block, height: printed }, load).height - asked;
  // Four alike may be one new foot among three old ones, anywhere.
  const sets =
    corner === null ? corners.map((_, k) => heights.map((h, i) => (i === k ? h + own : h))) : [heights];
  const rocks = sets.map((set) => rockingGap(stance.places, set, stance.centre));
  const worst = rocks.reduce((a, b) => (b.gap > a.gap ? b : a));
  return {
    ...{ id: 'rocking', title: 'rocking on a flat desk', value: worst.gap, limit: NOTICED_GAP },
    ...{ side: 'below', missed: 'caution', unit: 'mm', at: desk },
    because: rockingWords(corner, heights, worst.gap, worst.foot),
    source: 'geometry of the stances that the balance point allows; limit: common practice, no source',
    remedy:
      corner === null
        ? 'make all four feet new, or print thinner layers'
        : 'read the four heights again from the same flat underside; what stays is paper under the foot that hangs',
  };
}

function rockingWords(
  corner: Corner | null,
  heights: readonly number[],
  gap: number,
  hangs: number | null,
): string {
  if (corner === null)
    return `one such foot among three of the asked height leaves ${gap.toFixed(2)} mm to rock by; four of them stand even`;
  const list = heights.map((h, k) => `${corners[k]} ${h.toFixed(2)}`).join(', ');
  return hangs === null
    ? `the four heights (${list} mm) lie on one plane`
    : `the four heights (${list} mm) leave ${gap.toFixed(2)} mm under the ${corners[hangs]} foot`;
}

/** Slope from which a desk machine stands oddly and things roll off it, degrees. Common practice, no source. */
export const STEEP = 12;

function leanFinding({ stance, desk }: FootUnderLoad, heights: readonly number[]): FamilyFinding {
  const rise = mean(heights.slice(2)) - mean(heights.slice(0, 2));
  const apart = stance.places[2]![1];
  // Steeper than rules let through is only ever asked about before they are heard.
  const lean = degrees(tiltAngle(Math.max(-0.9 * apart, Math.min(0.9 * apart, rise)), apart));
  return {
    ...{ id: 'lean', title: 'tilt of the case', value: Math.abs(lean), limit: STEEP, side: 'below' },
    ...{ missed: 'caution', unit: 'deg', at: desk },
    because: `the rear feet are ${Math.abs(rise).toFixed(2)} mm ${rise < 0 ? 'lower' : 'higher'} than the front feet, ${apart.toFixed(0)} mm apart: the case leans ${Math.abs(lean).toFixed(1)} degrees`,
    source: 'geometry; limit: common practice, no source',
    remedy: 'lower the feet of one end',
  };
}

/** Radians as degrees, for sentences. */
export const degrees = (radians: number): number => (radians * 180) / Math.PI;

const range = (loads: readonly number[]): string => {
  const [low, high] = [Math.min(...loads), Math.max(...loads)].map((n) => n.toFixed(1));
  return low === high ? `${low}` : `${low} to ${high}`;
};
