import { block, cylinder, hull } from '../../solid/primitives.ts';
import { placed, type Shape, union } from '../../solid/shape.ts';
import type { Placement, Vec3 } from '../../solid/vector.ts';
import type { Material } from '../../standards/materials.ts';
import { legSection } from '../../strength/legSection.ts';
import { isRubberLike } from '../../strength/rubberCompound.ts';
import { barbedStem, type StemState } from '../../strength/splitStem.ts';
import { astride, between } from '../callout.ts';
import { type Choices, size } from '../choice.ts';
import type { FamilyFinding } from '../familyFinding.ts';
import type { Feature, Made } from '../feature.ts';
import { post } from '../interface.ts';
import { insideRound, outside } from '../reading.ts';
import { type Rule, sane } from '../rule.ts';
import type { Drawn } from '../values.ts';

/** A stem split crosswise into four legs with a barb, pushed up through a round hole in a wall. It stands on the face
 *  z = 0, about the z axis. Lengths in mm. The names are those of the family's readings and sizes, so that a refusal
 *  names what is to blame. */
export interface PushInStem {
  readonly hole: number;
  /** Wall that the hole goes through. */
  readonly wall: number;
  /** How much wider than the hole the barb is. */
  readonly overlap: number;
  /** Width of the slots between the legs. */
  readonly slot: number;
  /** Thickness of a leg's wall; from half the stem on the legs are solid. */
  readonly leg: number;
  /** How far below the face the legs begin, in a well around them; 0: at the face. */
  readonly root: number;
  /** Plastic below the face, of the lowest body there is. */
  readonly below: number;
  readonly material: Material;
}

type StemWithin = Omit<PushInStem, 'below' | 'material'>;

/** What a family with such a stem asks. `when` as in `ReadingSpec`. */
export const stemReadings = (when: (choices: Choices) => boolean) => ({
  hole: insideRound('hole in the case', {
    ...{ from: 3.5, to: 16, typical: 6.5, times: 5, when },
    tip: 'Small jaws in the hole, a quarter turn between readings; scrape old rubber off its edge first',
  }),
  wall: outside('wall of the case', {
    ...{ from: 1, to: 8, typical: 2.5, when },
    tip: 'Large jaws over the wall at the hole, from inside to outside, clear of ribs and mould marks',
  }),
});

/** What may be set of it. */
export const stemChoices = {
  overlap: size('overlap', { from: 0.2, to: 1.5, tip: 'How much wider than the hole the barb is' }),
  slot: size('slot', { from: 0.6, to: 3.5, tip: 'Between the legs of the stem' }),
  leg: size('leg', {
    from: 0.8,
    to: 8,
    tip: 'Thickness of the legs; half the stem or more makes them solid',
  }),
  root: size('root', { from: 0, to: 15, tip: 'How deep below the face the legs begin' }),
};

const LEGS = 4;
/** Flanks of the barb: the one that holds may hang by no more than this in print, the one that leads in is gentler. */
const HOLDING = Math.PI / 4;
const LEADING = Math.PI / 6;
/** Height of the barb at its widest, two or three layers, and how much slimmer than the stem its tip is, mm. */
const LAND = 0.5;
const TIP_LESS = 0.6;
/** Two walls of two lines of a common nozzle, mm: what is left of the legs at their tips, across. */
const TIP_WALL = 1.84;
/** Play along the axis that is drawn for, mm: half a layer, so that whole layers do not jam it. */
const PLAY = 0.1;
/** Thinnest leg at its tip, mm: a line of a common nozzle. */
const LEAST_LEG = 0.4;
/** Floor that must be left below the legs, mm: six layers. */
const FLOOR = 1.2;
/** Room around the legs in their well, mm, beyond what they bend. */
const AROUND = 0.6;
/** Solid stem below the root, mm. */
const SUNK = 0.5;
/** Clearance of a sliding fit, mm: the stem before it is planned. */
const LOOSE = 0.2;

/** Every length of the stem as drawn or as printed, mm. */
function layout({ hole, wall, overlap, slot, leg, root }: StemWithin, sizes: Drawn) {
  const stem = sizes.stem ?? hole - LOOSE;
  const barb = Math.max(stem + 0.02, sizes.barb ?? hole + overlap);
  const out = (barb - stem) / 2;
  // Where the flank is as wide as the hole it meets the far edge of the wall.
  const flank = wall + PLAY - Math.max(0, hole - stem) / 2;
  const bore = stem - 2 * leg > slot ? stem - 2 * leg : 0;
  // Thin legs keep two lines of plastic at their tips, as far as these still find the hole.
  const tip = bore > 0 ? Math.min(stem - LOOSE, Math.max(stem - TIP_LESS, bore + TIP_WALL)) : stem - TIP_LESS;
  const taper = (barb - tip) / 2 / Math.tan(LEADING);
  return {
    ...{ stem, barb, out, flank, tip, taper, bore },
    top: flank + out + LAND + taper,
    widest: flank + out,
    well: stem + 2 * Math.max(AROUND, out + 0.3),
    length: root + flank + out,
  };
}

/** The well in which the legs stand, to be taken out of the body before the stem is put on it; null when they begin at
 *  the face. */
export function stemWell(of: StemWithin, drawn: Drawn): Shape | null {
  if (of.root === 0) return null;
  const diameter = layout(of, drawn).well;
  return cylinder({ axis: 'z', diameter, from: [0, 0, -of.root], length: of.root + 1, sense: 'bore' });
}

/** Diameter of the well, mm; 0 without one. */
export const stemWellWidth = (of: StemWithin, drawn: Drawn): number =>
  of.root === 0 ? 0 : layout(of, drawn).well;

/** A push-in stem: the plastic of it, its fits (`stem`, `barb`), what rules it, and what it takes to push in and pull
 *  out over all that the hole may be, two standard uncertainties either way. Legs printed upright break across the
 *  layers, so that is the strain they are held to. The wall of the machine is the family's to draw; it meets `stem`
 *  and `barb`.
 *  @example pushInStem({ hole: 6, wall: 2, overlap: 0.6, slot: 1, leg: 3, root: 0, material }, drawn).interfaces */
export function pushInStem(of: PushInStem, drawn: Drawn): Feature {
  const { hole, wall, overlap } = of;
  const { flank, widest, length } = layout(of, drawn);
  const round = { axis: [0, 0, 1] as Vec3, across: [1, 0, 0] as Vec3 };
  return {
    add: () => stemShape(of, drawn),
    cut: () => slots(of, drawn),
    interfaces: [
      post('stem', {
        ...{ name: 'stem in hole', host: hole, fit: 'sliding', ...round },
        ...{ at: [0, 0, flank / 2], length: flank },
      }),
      post('barb', {
        ...{ name: 'barb past hole', host: hole, fit: { lo: -1.5 * overlap, hi: -overlap / 2 }, ...round },
        ...{ at: [0, 0, widest + LAND / 2], length: LAND },
      }),
    ],
    callouts: {
      hole: astride('x', hole, [0, 0, wall]),
      wall: between([-hole / 2, 0, 0], [-hole / 2, 0, wall]),
    },
    rules: stemRules(of),
    findings: (made) => stemFindings(of, made, wall, length),
    steps: [
      {
        kind: 'place',
        sentence:
          'Push the stem up through the hole by thumb, straight, until the barb clicks behind the wall',
      },
    ],
  };
}

function stemShape(of: PushInStem, drawn: Drawn): Shape {
  const { stem, barb, out, flank, tip, taper } = layout(of, drawn);
  const shaft = { axis: 'z', sense: 'shaft' } as const;
  // The flank starts inside the stem, so that the two cross at an angle and not in a line.
  const inside = Math.min(0.3, stem / 8);
  const head = hull(
    cylinder({
      ...{ ...shaft, diameter: stem - 2 * inside, endDiameter: barb },
      ...{ from: [0, 0, flank - inside], length: inside + out },
    }),
    cylinder({
      ...{ ...shaft, diameter: barb, endDiameter: tip },
      ...{ from: [0, 0, flank + out + LAND], length: taper },
    }),
  );
  const below = -of.root - SUNK;
  const shank = cylinder({
    ...{ ...shaft, diameter: stem, from: [0, 0, below], length: flank + out - below },
  });
  return union(shank, head);
}

const DIAGONAL: Placement = {
  rotation: [Math.SQRT1_2, -Math.SQRT1_2, 0, Math.SQRT1_2, Math.SQRT1_2, 0, 0, 0, 1],
  translation: [0, 0, 0],
};

function slots(of: PushInStem, drawn: Drawn): Shape {
  const { barb, bore, top } = layout(of, drawn);
  const [half, far] = [of.slot / 2, barb / 2 + 0.15];
  const [low, high] = [-of.root, top + 1];
  const cross = [block([-half, -far, low], [half, far, high]), block([-far, -half, low], [far, half, high])];
  const hollow = { axis: 'z', diameter: bore, from: [0, 0, low] as Vec3, length: high - low } as const;
  // Turned by half a right angle, so that callipers along x and y meet legs.
  const turned = placed(union(...cross), DIAGONAL);
  return union(turned, ...(bore > 0 ? [cylinder({ ...hollow, sense: 'bore', surface: 'plain' })] : []));
}

function stemRules(of: PushInStem): Rule[] {
  const { stem, tip, bore, barb, length } = layout(of, {});
  const { hole, overlap, slot, leg } = of;
  // What is left of a leg's outer face at the tip, and how deep a leg is between its outer face and the slots' corner.
  const deep = bore > 0 ? (tip - bore) / 2 : tip / 2 - slot / Math.SQRT2;
  return [
    sane(
      deep >= LEAST_LEG,
      bore > 0 ? 'leg' : 'slot',
      `leaves no legs (${deep.toFixed(2)} mm at their tips, at least ${LEAST_LEG} mm; hole ${hole.toFixed(2)} mm, slot ${slot.toFixed(2)} mm, leg ${leg.toFixed(2)} mm)`,
    ),
    sane(
      (slot / Math.SQRT2) * 2 > barb - hole,
      'slot',
      `is too narrow for the legs to close: slot ${slot.toFixed(2)} mm, overlap ${overlap.toFixed(2)} mm`,
    ),
    sane(
      deep < LEAST_LEG || overlap >= stem / 4 || slenderness(of, {}) >= SLENDER,
      'root',
      `leaves legs too short to bend (${length.toFixed(2)} mm long, ${SLENDER} times their thickness wanted): let them begin deeper, or make them thinner`,
    ),
    sane(
      of.root + FLOOR <= of.below,
      'root',
      `leaves no floor below the legs (root ${of.root.toFixed(2)} mm, body ${of.below.toFixed(2)} mm, floor at least ${FLOOR} mm)`,
    ),
    sane(
      overlap < stem / 4,
      'overlap',
      `must be less than a quarter of the stem (overlap ${overlap.toFixed(2)} mm, stem ${stem.toFixed(2)} mm)`,
    ),
  ];
}

/** The stem in holes of these diameters, as `sizes` say it is. */
function inHoles(of: PushInStem, sizes: Drawn, holes: readonly number[], friction: number): StemState[] {
  const { stem, barb, length, bore } = layout(of, sizes);
  const { material, slot } = of;
  return barbedStem(
    {
      ...{ diameter: stem, barbDiameter: barb, length, legs: LEGS, slot, bore },
      ...{ modulus: material.modulusAcross.value, poisson: material.poisson.value, friction },
      ...{ insertionAngle: LEADING, retentionAngle: HOLDING },
    },
    holes,
  );
}

/** Share of the permissible strain that is drawn for, and the overlaps tried, as shares of the hole. Below the least,
 *  what hole and printer scatter by eats it up. Common practice, no source. */
const USED = 0.6;
const OVERLAPS = { least: 0.25, most: 0.8, share: 0.1 } as const;

/** Legs that suit a material: sizes of a stem for a hole, mm. A rubber-like plastic gets solid legs, a stiff one thin
 *  ones; both begin as deep in the body as it takes for them to bend, and have no more overlap than they bear.
 *  @example stemSizes({ hole: 6, wall: 2, below: 8, material: materials.TPU }) // => { overlap: 0.6, slot: 0.94, leg: 2.9, root: 0.5 } */
export function stemSizes({
  hole,
  wall,
  material,
  below,
}: Pick<PushInStem, 'hole' | 'wall' | 'material' | 'below'>): Pick<
  PushInStem,
  'overlap' | 'slot' | 'leg' | 'root'
> {
  const most = Math.max(OVERLAPS.least, Math.min(OVERLAPS.most, OVERLAPS.share * hole));
  const slot = Math.min(Math.max(0.8, 0.9 * most + 0.4), hole / 4);
  const stem = hole - LOOSE;
  const deepest = Math.max(0, below - FLOOR - 0.8);
  const roots = [...Array.from({ length: Math.ceil(2 * deepest) }, (_, k) => k / 2), deepest];
  const thickest = isRubberLike(material) ? stem / 2 : Math.min(stem / 2, STIFF_LEG);
  const legs = [1, 0.6, 0.45, 0.3].map((part) => Math.max(Math.min(1, thickest), part * thickest));
  const tried = legs.flatMap((leg) => roots.map((root) => ({ overlap: most, slot, leg, root })));
  const whole = { hole, wall, material, below };
  const slender = tried.filter((sizes) => slenderness({ ...whole, ...sizes }, {}) >= SLENDER);
  const bears = USED * material.permissible.onceAcross.value;
  const strainOf = (sizes: (typeof tried)[number]) =>
    inHoles({ ...whole, ...sizes }, {}, [hole], 0)[0]!.strain;
  // The thickest legs, and of these the shortest, that bend and bear their overlap; else the gentlest, with less of it.
  const fits = slender.find((sizes) => strainOf(sizes) <= bears);
  if (fits) return fits;
  const gentlest = slender.at(-1) ?? tried.at(-1)!;
  if (slender.length === 0) return gentlest;
  return { ...gentlest, overlap: Math.max(OVERLAPS.least, (bears * most) / strainOf(gentlest)) };
}

/** Legs shorter than this many times their thickness do not bend but shear, and the formula stops; the rest is for what
 *  the print changes of them. */
const SHEARS = 1.5;
const SLENDER = 1.65;
/** Thickness of legs of stiff plastic, mm: three lines of a common nozzle. */
const STIFF_LEG = 1.3;

/** Length of the legs over their thickness. */
function slenderness(of: StemWithin, sizes: Drawn): number {
  const { stem, bore, length } = layout(of, sizes);
  const { inertia, area } = legSection({ diameter: stem, legs: LEGS, slot: of.slot, bore });
  return length / Math.sqrt((12 * inertia) / area);
}

/** What a thumb does without a tool, N. Common practice, no source. */
const THUMB = 40;
/** What should at least be needed to pull it out, N, so that it stays in when the machine is lifted and dragged.
 *  Common practice, no source. */
const STAYS = 5;
/** Play along the axis that is felt as a rattle, mm. Common practice, no source. */
const RATTLES = 0.5;

/** Fits far from the usual ones can make legs thicker and shorter than the rules have seen them. */
const legsThatShear = (of: PushInStem, slender: number, length: number): FamilyFinding => ({
  ...{ id: 'stem.legs', title: 'length of the legs over their thickness', value: slender, unit: '1' },
  ...{ limit: SHEARS, side: 'above', at: [0, 0, -of.root] },
  source: 'Range of the cantilever formula (see "spring arm")',
  because: `legs ${length.toFixed(2)} mm long shear rather than bend, so what they bear and hold cannot be told`,
  remedy: 'fits of stem and barb nearer to the usual ones, legs that begin deeper, or thinner ones',
});

function stemFindings(
  of: PushInStem,
  { prints, known, material }: Made,
  wall: number,
  length: number,
): FamilyFinding[] {
  const slender = slenderness(of, prints);
  if (slender < SHEARS) return [legsThatShear(of, slender, length)];
  const doubt = 2 * (known.hole?.u ?? 0);
  const { lo, hi } = material.frictionOnSteel;
  const range = [of.hole - doubt, of.hole + doubt] as const;
  const [tight] = inHoles(of, prints, [range[0]], hi) as [StemState];
  const [loose] = inHoles(of, prints, [range[1]], lo) as [StemState];
  const { stem, barb, bore, flank } = layout(of, prints);
  const { room } = legSection({ diameter: stem, legs: LEGS, slot: of.slot, bore });
  const play = flank + Math.max(0, range[1] - stem) / 2 - (wall - 2 * (known.wall?.u ?? 0));
  const once = material.permissible.onceAcross;
  const breaks = material.breakStrainAcross;
  const holes = `hole ${range[0].toFixed(2)} to ${range[1].toFixed(2)} mm`;
  const at = [0, 0, flank] as const;
  const force = (state: StemState, way: 'pushIn' | 'pullOut') => state[way].force ?? HELD_FAST;
  const formula =
    'cantilever of the leg\'s own section, 3 c y / l^2, with the give of its root (see "barbed stem"); friction and its scatter: snap-fit design guides';
  return [
    {
      ...{ id: 'stem.strain', title: "strain of the stem's legs", value: 100 * tight.strain, unit: '%' },
      ...{ limit: 100 * once.value, side: 'below', source: once.source, at: [0, 0, -of.root] },
      because: `each leg gives way ${tight.deflection.toFixed(2)} mm over ${length.toFixed(2)} mm in the smallest hole (${holes}), ${percent(tight.strain)} strain across the layers; ${material.name} bears ${percent(once.value)} once`,
      remedy: 'a smaller overlap, thinner or deeper legs, or a softer material: TPU bears it with ease',
      details: {
        'strain with the notch at the root, %': 100 * tight.peakStrain,
        'inner edge, %': 100 * tight.innerStrain,
        'length over thickness': slender,
      },
    },
    {
      ...{ id: 'stem.root', title: 'notch where the legs begin', value: 100 * tight.peakStrain, unit: '%' },
      ...{ limit: 100 * breaks.value, side: 'below', missed: 'caution', source: breaks.source },
      because: `with the sharp corner the strain at the root peaks at ${percent(tight.peakStrain)}; layers part at ${percent(breaks.value)}`,
      ...{ remedy: 'a smaller overlap, or deeper legs', at: [0, 0, -of.root] },
    },
    {
      ...{ id: 'stem.push', title: 'push to get it in', value: force(tight, 'pushIn'), unit: 'N' },
      ...{ limit: THUMB, side: 'below', missed: 'caution', source: formula, at },
      because: `the barb, ${barb.toFixed(2)} mm over all, takes ${force(tight, 'pushIn').toFixed(1)} N to pass the smallest hole (${holes}); a thumb does ${THUMB} N without a tool (common practice, no source)`,
      remedy:
        'a smaller overlap, or press it in with the flat of a block of wood, the case held up beside the hole',
    },
    {
      ...{ id: 'stem.hold', title: 'pull that takes it out', value: force(loose, 'pullOut'), unit: 'N' },
      ...{ limit: STAYS, side: 'above', source: formula, at },
      because: `the barb overlaps the largest hole (${holes}) by ${(barb - range[1]).toFixed(2)} mm and holds ${force(loose, 'pullOut').toFixed(1)} N; ${STAYS} N keep it in when the machine is lifted or dragged (common practice, no source)`,
      remedy: 'more overlap, thicker legs, or read the hole three more times',
    },
    {
      ...{ id: 'stem.legs', title: 'room for the legs to close', value: room - tight.deflection, unit: 'mm' },
      ...{ limit: 0, side: 'above', source: 'geometry of the slots', at },
      because: `in the smallest hole (${holes}) each leg moves in by ${tight.deflection.toFixed(2)} mm; legs meet after ${room.toFixed(2)} mm`,
      remedy: 'a wider slot or a smaller overlap',
    },
    {
      ...{ id: 'stem.play', title: 'play along the stem', value: play, unit: 'mm' },
      ...{ limit: RATTLES, side: 'below', missed: 'caution', at },
      source: 'geometry; common practice, no source',
      because: `with the largest hole and the thinnest wall that the readings leave, the barb is ${play.toFixed(2)} mm from the edge of the wall`,
      remedy: 'read hole and wall again, or glue a washer of card under the foot',
    },
  ];
}

/** Stands for a joint that no pull undoes, N. */
const HELD_FAST = 1000;

const percent = (fraction: number): string => `${(100 * fraction).toFixed(1)} %`;
