import { cylinder, hull, prism } from '../../solid/primitives.ts';
import { intersection, moved, type Shape, union } from '../../solid/shape.ts';
import type { Contour, Vec2, Vec3 } from '../../solid/vector.ts';
import type { Material } from '../../standards/materials.ts';
import { armFlexibility } from '../../strength/armFlexibility.ts';
import { jointForce } from '../../strength/jointForce.ts';
import { type ArmState, springArm } from '../../strength/springArm.ts';
import { size } from '../choice.ts';
import type { FamilyFinding } from '../familyFinding.ts';
import type { Feature, Made } from '../feature.ts';
import { post } from '../interface.ts';
import { type Rule, sane } from '../rule.ts';
import type { Drawn } from '../values.ts';
import { plugCentres } from './coverPlug.ts';
import { knownRange } from './knownRange.ts';
import { openingFields, openingReach, type PanelRow } from './panelOpening.ts';

/** Two arms in every opening that lean out and hook behind its upper and lower edge. They stand on the back of a plate, z = 0.
 *  Lengths in mm; the names are those of the family's sizes. */
export interface SpringArms {
  readonly row: PanelRow;
  readonly panelThickness: number;
  readonly roomBehind: number;
  /** Thickness of an arm, its width along the edge. */
  readonly arm: number;
  readonly armWidth: number;
  /** How far the nose stands past the edge of the opening. */
  readonly bite: number;
  /** From the back of the panel to the crest of the nose: a longer arm is strained less. */
  readonly reach: number;
  /** Play along z that is drawn for. */
  readonly play: number;
  /** Pull that they ought to hold, N, and why. */
  readonly hold: { readonly force: number; readonly why: string };
}

/** Flank that leads in, to the direction of pushing. */
const LEADING = (35 * Math.PI) / 180;
/** Steepest lean of an arm: more would hang in print. */
const STEEPEST = (40 * Math.PI) / 180;
/** Height of the crest, so that a whole layer has it, and how far the tip stands back from the edge, mm. */
const CREST = 0.4;
const BACK = 0.4;
/** Room beside an arm and behind its nose while it passes, mm. */
const BESIDE = 0.6;
const PASSES = 0.3;
/** How far arms stand into the plate, mm. */
const SUNK = 0.4;
/** Room kept to what lies behind the tips, mm. */
export const BEHIND_TIPS = 0.5;
/** On a round edge the ends of an arm are thinner than its middle; by at most this share. */
const THINNER = 0.2;
/** Two lines of a usual nozzle, mm: no end of an arm is thinner. */
const TWO_LINES = 0.87;

/** Every length of the arms, mm; `noses` is the size over both crests. */
function layout({ row, panelThickness, bite, reach, play }: SpringArms, noses: number) {
  const { low, high } = openingReach(row.opening);
  const lever = panelThickness + reach;
  const slope = bite / (reach - play);
  const lead = (bite + BACK) / Math.tan(LEADING);
  return {
    ...{ low, high, lever, slope, middle: (low + high) / 2, crest: noses / 2, lean: Math.atan(slope) },
    root: noses / 2 - slope * lever,
    tip: noses / 2 - bite - BACK,
    depth: lever + CREST + lead,
  };
}

/** How deep arms reach behind the face the plate rests on, mm.
 *  @example armDepth({ panelThickness: 2.5, reach: 4, bite: 0.5 }) // => 8.185 */
export const armDepth = ({
  panelThickness,
  reach,
  bite,
}: Pick<SpringArms, 'panelThickness' | 'reach' | 'bite'>): number =>
  panelThickness + reach + CREST + (bite + BACK) / Math.tan(LEADING);

/** Half width of the gap that arms want in the wall of a plug, mm. */
export const armBay = (armWidth: number): number => armWidth / 2 + BESIDE;

/** How far arms reach in from the edge while they pass it, at their tips, mm: what must be kept clear for them. */
export const armSweep = ({ arm, bite }: Pick<SpringArms, 'arm' | 'bite'>): number =>
  BACK + arm + bite + PASSES;

/** Widest arm that an opening's upper and lower edge take, mm: on a straight edge what its ends leave, on a round one what
 *  keeps the arm nearly as thick at its ends as in its middle. */
export function widestArm({ opening: { form, width, height, corner } }: PanelRow, arm: number): number {
  const thinner = Math.min(THINNER * arm, Math.max(0.03, arm - TWO_LINES));
  const onRound = Math.sqrt(8 * (width / 2) * thinner);
  if (form === 'round') return onRound;
  if (form === 'D')
    return Math.min(onRound, 2 * Math.sqrt(Math.max(0, (width / 2) ** 2 - (height - width / 2) ** 2)) - 2);
  // The wall of the plug goes on at both ends of the bay.
  return (form === 'slotted' ? width - height : width - 2 * corner) - 2 * BESIDE - 1;
}

/** Sizes of the arms that a job may set. */
export const armSpecs = {
  arm: size('arm', { from: 0.7, to: 2.5, tip: 'Thickness of the spring arms' }),
  armWidth: size('arm width', { from: 1.5, to: 20, tip: 'Width of an arm along the edge' }),
  bite: size('bite', { from: 0.25, to: 1.2, tip: 'How far a nose stands past the edge' }),
  reach: size('reach', {
    from: 0.6,
    to: 20,
    tip: 'From the back of the panel to the nose: longer is gentler',
  }),
  play: size('play', { from: 0, to: 0.5, tip: 'Play of the arms that is drawn for' }),
};

/** Share of the permissible strain that is drawn for; sizes that are tried, mm. Common practice, no source. */
const USED = 0.75;
const TRIED = {
  arm: [1.2, 1.05, 0.9],
  bite: [0.6, 0.55, 0.5, 0.45, 0.4, 0.35, 0.3],
  reach: [2.5, 3, 3.5, 4, 4.5, 5, 6, 7],
} as const;
const PLAY = 0.15;
/** What readings and print may add to a bite, mm, and the least slope at which they make no rattle of it. */
const MORE = 0.05;
const SLOPE = 0.14;
/** Friction by which holds are compared. */
const USUAL_FRICTION = 0.3;
/** Push in that thumbs like, N, and the narrowest an arm is made for it, mm. Common practice, no source. */
const EASY = 30;
const NARROW = 3;

const matingPush = jointForce(1, USUAL_FRICTION, LEADING).force!;

type ArmSizes = Pick<SpringArms, 'arm' | 'armWidth' | 'bite' | 'reach' | 'play'>;
type ArmPlace = Pick<SpringArms, 'row' | 'panelThickness' | 'roomBehind'>;

/** Arms that suit opening, room and material: those that hold hardest among those that use no more than three quarters of what the material
 *  bears, and among these those that lean enough not to rattle; the gentlest when none does. Without a material, the firmest.
 *  @example in PETG, opening 34 x 22: armSizes({ row, panelThickness: 2.5, roomBehind: 25 }, materials.PETG)
 *  // => { arm: 1.05, armWidth: 10, bite: 0.4, reach: 3, play: 0.15 } */
export function armSizes(place: ArmPlace, material: Material | undefined): ArmSizes {
  const bears = USED * (material?.permissible.onceAcross.value ?? Infinity);
  const all = TRIED.arm.flatMap((arm) =>
    TRIED.bite.flatMap((bite) => TRIED.reach.map((reach) => judged(place, material, arm, bite, reach))),
  );
  const fitting = all.filter(({ sizes }) => 2 * (armSweep(sizes) + PASSES) <= place.row.opening.height);
  const tried = fitting.length > 0 ? fitting : all;
  const borne = tried.filter((one) => one.strain <= bears);
  const firm = borne.filter((one) => one.slope >= SLOPE);
  const best = firm.length > 0 ? firm : borne;
  const chosen =
    best.length > 0
      ? best.reduce((a, b) => (b.hold > a.hold ? b : a))
      : tried.reduce((a, b) => (b.strain < a.strain ? b : a));
  const { sizes, push } = chosen;
  // Forces go with the width, strains do not.
  const armWidth = Math.max(Math.min(NARROW, sizes.armWidth), sizes.armWidth * Math.min(1, EASY / push));
  return { ...sizes, armWidth: Math.floor(10 * armWidth) / 10 };
}

function judged(place: ArmPlace, material: Material | undefined, arm: number, bite: number, longest: number) {
  const { row, panelThickness, roomBehind } = place;
  const { form } = row.opening;
  const room = roomBehind - BEHIND_TIPS - 1e-3 - armDepth({ panelThickness, reach: 0, bite });
  const reach = Math.min(longest, Math.max(1.2, room));
  const widest = widestArm(row, arm);
  const armWidth = Math.min(10, Math.max(1.5, form === 'round' || form === 'D' ? widest : 0.6 * widest));
  const { total, strain } = armFlexibility(
    { length: Math.max(panelThickness + reach, 1.6 * arm), thickness: arm, width: armWidth },
    // Strain and comparison do not hang on the modulus.
    material?.modulusAcross.value ?? 1000,
    material?.poisson.value ?? 0.35,
  );
  const slope = bite / (reach - PLAY);
  return {
    ...{ sizes: { arm, armWidth, bite, reach, play: PLAY }, slope },
    ...{ strain: ((bite + MORE) * strain) / total, hold: (bite / total) * (USUAL_FRICTION + slope) },
    // Only a known material has a modulus to reckon a push with.
    push: material === undefined ? 0 : (2 * row.count * matingPush * bite) / total,
  };
}

const nosesId = ({ count }: PanelRow, k: number): string => `noses${count > 1 ? k + 1 : ''}`;

/** Ids of all arms' fits, for the panel that they meet. */
export const nosesIds = (row: PanelRow): string[] =>
  Array.from({ length: row.count }, (_, k) => nosesId(row, k));

/** Spring arms: plastic, a fit over both noses (`noses`), rules, and over all that opening and panel thickness may be: strain while they pass and
 *  when seated, push, pull, play. They stand upright on the bed, so that layers part before they bend: strain is held to what they bear across.
 *  @example springArms(arms, drawn).interfaces?.map(({ id }) => id) // => ['noses'] */
export function springArms(of: SpringArms, drawn: Drawn): Feature {
  const { row, bite } = of;
  const { low, high, lever, middle } = layout(of, 0);
  const centres = plugCentres(row, drawn);
  const own = (k: number): number => drawn[nosesId(row, k)] ?? high - low + 2 * bite;
  return {
    add: () =>
      union(
        ...centres.flatMap((x, k) => [1, -1].map((side) => moved(armShape(of, own(k), side), [x, 0, 0]))),
      ),
    interfaces: centres.map((x, k) =>
      post(nosesId(row, k), {
        ...{
          name: row.count > 1 ? `noses ${k + 1} past the edges` : 'noses past the edges',
          host: high - low,
        },
        ...{ fit: { lo: -2 * bite - 0.25, hi: -2 * bite + 0.25 }, axis: [0, 0, -1], across: [0, 1, 0] },
        ...{ at: [x, middle, -lever - CREST / 2], length: CREST },
      }),
    ),
    rules: armRules(of),
    findings: (made) => armFindings(of, made),
    steps: [
      {
        kind: 'place',
        sentence: `Offer the cover up square and push with both thumbs over the arms until ${row.count > 1 ? 'all of them' : 'both'} click behind the panel`,
      },
    ],
  };
}

function armShape(of: SpringArms, noses: number, side: number): Shape {
  const { middle, crest, root, slope, tip, lever, depth, low, high } = layout(of, noses);
  const { arm, row, armWidth } = of;
  const { form, width } = row.opening;
  // Of a round edge the face is cut out of a round that bulges as the edge does.
  const round = form === 'round' || (form === 'D' && side === -1);
  const face: Vec2[] = [
    [root - slope * SUNK, SUNK],
    [crest, -lever],
    [crest, -lever - CREST],
    [tip, -depth],
  ];
  const inner = face.map(([y, z]): Vec2 => [y - arm, z]).reverse();
  const outer = round ? face.map(([y, z]): Vec2 => [y + 2, z]) : face;
  const contour: Contour = [...outer, ...inner].map(([y, z]): Vec2 => [middle + side * y, z]);
  const bar = prism('x', side === 1 ? contour.reverse() : contour, -armWidth / 2, armWidth / 2);
  if (!round) return bar;
  // Radius of the edge, and of everything as far out or in from it.
  const at = (y: number): number => 2 * (width / 2 + y - (high - low) / 2);
  const disc = (y: number, from: number, to: number): Shape =>
    cylinder({ axis: 'z', diameter: at(y), from: [0, 0, from], length: to - from, sense: 'shaft' });
  const bulge = hull(
    disc(root - slope * SUNK, SUNK, SUNK + 1e-3),
    disc(crest, -lever - CREST, -lever),
    disc(tip, -depth, -depth + 1e-3),
  );
  return intersection(bar, bulge);
}

function armRules(of: SpringArms): Rule[] {
  const { row, arm, armWidth, bite, reach, play, panelThickness, roomBehind } = of;
  const { high, low, lever, slope, root } = layout(
    of,
    openingReach(row.opening).high - openingReach(row.opening).low + 2 * bite,
  );
  const mm = (value: number): string => `${value.toFixed(2)} mm`;
  const least = 2 * (armSweep(of) + PASSES);
  const widest = widestArm(row, arm);
  const depth = armDepth(of);
  return [
    sane(
      high - low >= least && root - arm > PASSES,
      openingFields(row.opening.form).height,
      `leaves no room for two arms that pass the edges (${mm(high - low)} between them, at least ${mm(Math.max(least, high - low + 2 * (PASSES - root + arm)))}); choose screws or glue, or thinner arms`,
    ),
    sane(
      armWidth <= widest,
      'armWidth',
      `is more than the edge of the opening takes (arm ${mm(armWidth)} wide, at most ${mm(widest)}); choose screws or glue where that is too little`,
    ),
    sane(
      reach > play && slope <= Math.tan(STEEPEST),
      'reach',
      `makes the noses too steep to print and to hold: at least ${mm(play + bite / Math.tan(STEEPEST))} for a bite of ${mm(bite)}`,
    ),
    sane(
      lever >= 1.6 * arm,
      'arm',
      `is too thick for so short an arm (${mm(arm)} thick, ${mm(lever)} long from plate to nose); a longer reach, or thinner`,
    ),
    sane(
      depth + BEHIND_TIPS <= roomBehind,
      'roomBehind',
      `leaves no room for the arms, which reach ${mm(depth)} behind the face of the panel (room ${mm(roomBehind)}, panel ${mm(panelThickness)}); choose screws or glue, or a shorter reach`,
    ),
  ];
}

/** What thumbs do without a tool, N. Common practice, no source. */
const THUMBS = 60;
/** Play that is felt as a rattle, mm. Common practice, no source. */
const RATTLES = 0.6;
/** How much of a layer the plate's back may lie off, mm. */
const LAYER = 0.1;
/** Stands for a joint that no pull undoes, N. */
const HELD_FAST = 1000;

/** What is bent how far, mm: over the readings' range and the doubt of the print. */
function statesOf(of: SpringArms, made: Made) {
  const { row, arm, armWidth } = of;
  const { material, prints, doubt = {} } = made;
  const id = nosesId(row, 0);
  const { lever, lean, slope, high, low } = layout(of, 0);
  const host = high - low;
  const noses = prints[id] ?? host + 2 * of.bite;
  const [gone, left] = [(noses - host) / 2 + (doubt[id] ?? 0), (noses - host) / 2 - (doubt[id] ?? 0)];
  const { lo, hi } = material.frictionOnSteel;
  const bent = (friction: number, deflection: number): ArmState =>
    springArm(
      {
        ...{ length: lever, thickness: arm, width: armWidth, friction },
        ...{ modulus: material.modulusAcross.value, poisson: material.poisson.value },
        ...{ insertionAngle: LEADING, retentionAngle: lean },
      },
      [Math.max(0, deflection)],
    )[0]!;
  const [most, least] = [bent(hi, gone), bent(lo, left)];
  const panel = knownRange(made, 'panelThickness', of.panelThickness, true);
  // Where the leaning face crosses the edge: there the arm touches without bending.
  const touches = lever - (noses / 2 - host / 2) / slope;
  const play = {
    lo: touches - (doubt[id] ?? 0) / slope - LAYER - panel.hi,
    hi: touches + (doubt[id] ?? 0) / slope + LAYER - panel.lo,
  };
  // Strain per deflection grows by no more than the square of the shorter lever.
  const kept = Math.max(0, -play.lo * slope);
  const seated = most.deflection > 0 ? (most.strain / most.deflection) * kept * (lever / panel.lo) ** 2 : 0;
  return { most, least, panel, play, kept, seated, lever };
}

/** Greatest gap under the plate that the play of the arms leaves, mm. */
export const armGap = (of: SpringArms, made: Made): number => Math.max(0, statesOf(of, made).play.hi);

function armFindings(of: SpringArms, made: Made): FamilyFinding[] {
  const { material } = made;
  const { row, hold, panelThickness } = of;
  const { most, least, panel, play, kept, seated, lever } = statesOf(of, made);
  const arms: number = 2 * row.count;
  const { onceAcross: once, repeatedAcross: again } = material.permissible;
  const breaks = material.breakStrainAcross;
  const push = arms * (most.pushIn.force ?? HELD_FAST);
  const pull = arms * (least.pullOut.force ?? HELD_FAST);
  const thick = `panel ${panel.lo.toFixed(2)} to ${panel.hi.toFixed(2)} mm thick`;
  const root: Vec3 = [0, openingReach(row.opening).high, 0];
  const nose: Vec3 = [0, openingReach(row.opening).high, -lever];
  const formula =
    'cantilever with a root that gives (see "spring arm"); friction and its scatter: snap-fit design guides';
  const percent = (fraction: number): string => `${(100 * fraction).toFixed(2)} %`;
  return [
    {
      ...{ id: 'arms.strain', title: 'strain of the arms as they pass the edge', value: 100 * most.strain },
      ...{
        limit: 100 * once.value,
        side: 'below',
        unit: '%',
        source: `${once.source}; ${formula}`,
        at: root,
      },
      because: `each arm gives way by up to ${most.deflection.toFixed(2)} mm over ${lever.toFixed(2)} mm, ${percent(most.strain)} strain across the layers; ${material.name} bears ${percent(once.value)} once and ${percent(again.value)} again and again`,
      remedy:
        'a longer reach, thinner arms or a smaller bite; PETG or PA12, which bear more across the layers; or screws',
      details: { 'by how much it gives, mm': most.deflection, 'force across one arm, N': most.force },
    },
    {
      ...{ id: 'arms.root', title: 'notch at the root of the arms', value: 100 * most.peakStrain, unit: '%' },
      ...{
        limit: 100 * breaks.value,
        side: 'below',
        missed: 'caution',
        source: `${breaks.source}; ${formula}`,
        at: root,
      },
      because: `at the sharp corner between arm and plate strain peaks at ${percent(most.peakStrain)}; layers part at ${percent(breaks.value)}`,
      remedy: 'a longer reach, thinner arms or a smaller bite',
    },
    {
      ...{
        id: 'arms.push',
        title: 'push to get it in',
        value: push,
        limit: THUMBS,
        side: 'below',
        unit: 'N',
      },
      ...{ missed: 'caution', source: formula, at: nose },
      because: `${arms} arms at their stiffest and tightest take ${push.toFixed(1)} N; two thumbs do ${THUMBS} N without a tool (common practice, no source)`,
      remedy: 'thinner or narrower arms, or a smaller bite; never a hammer',
    },
    {
      ...{
        id: 'arms.pull',
        title: 'pull that takes it out',
        value: pull,
        limit: hold.force,
        side: 'above',
        unit: 'N',
      },
      ...{ missed: 'caution', source: formula, at: nose },
      because: `${arms} arms in the largest opening the readings leave hold ${pull.toFixed(1)} N; ${hold.why} (common practice, no source)`,
      remedy: 'a larger bite, thicker or wider arms; screws hold better',
    },
    {
      ...{
        id: 'arms.catch',
        title: 'nose past the thickest panel',
        value: lever - panel.hi,
        limit: 0.3,
        unit: 'mm',
      },
      ...{ side: 'above', source: 'geometry; common practice, no source', at: nose },
      because: `the crest of the nose lies ${lever.toFixed(2)} mm behind the plate, ${thick} (measured ${panelThickness.toFixed(2)} mm)`,
      remedy: 'a longer reach, or read the panel again where it is thickest',
    },
    {
      ...{
        id: 'arms.play',
        title: 'play of the cover in the panel',
        value: play.hi,
        limit: RATTLES,
        side: 'below',
      },
      ...{ unit: 'mm', missed: 'caution', source: 'geometry; common practice, no source', at: nose },
      because: `${thick} and noses as well as they are known leave from ${play.lo.toFixed(2)} to ${play.hi.toFixed(2)} mm along the way out; below 0 the arms stay bent and hold it still`,
      remedy:
        'a larger bite or a shorter reach, which lean the arms more; read panel and opening again, or lay felt under the plate',
    },
    {
      ...{
        id: 'arms.seated',
        title: 'strain that the arms keep when seated',
        value: 100 * seated,
        unit: '%',
      },
      ...{
        limit: 100 * again.value,
        side: 'below',
        missed: 'caution',
        source: `${again.source}; ${formula}`,
        at: root,
      },
      because: `in the thickest panel (${thick}) the arms stay bent by ${kept.toFixed(2)} mm, at most ${percent(seated)} strain; ${material.name} creeps and lets go of it in time`,
      remedy: 'more play, a longer reach, or read the panel again: it differs from place to place',
    },
  ];
}
