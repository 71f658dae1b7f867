import { turn } from '../../solid/placement.ts';
import { block, cylinder } from '../../solid/primitives.ts';
import { placed, type Shape, union } from '../../solid/shape.ts';
import type { Placement, Vec3 } from '../../solid/vector.ts';
import type { Material } from '../../standards/materials.ts';
import { riserStability } from '../../strength/riserStability.ts';
import { astride, between } from '../callout.ts';
import { type Choices, size } from '../choice.ts';
import type { FamilyFinding } from '../familyFinding.ts';
import type { Feature } from '../feature.ts';
import { bore } from '../interface.ts';
import { byRule, outside } from '../reading.ts';
import { sane } from '../rule.ts';
import type { Drawn } from '../values.ts';
import { degrees, STEEP } from './footUnderLoad.ts';

/** What a riser asks. `when` as in `ReadingSpec`. */
export const riserReadings = (when: (choices: Choices) => boolean) => ({
  footDiameter: outside('diameter of the old foot', {
    ...{ from: 6, to: 40, typical: 18, when },
    tip: 'Across the rear foot near the desk, without squeezing the rubber; a quarter turn between readings',
  }),
  rise: byRule('lift of the rear feet', {
    ...{ from: 4, to: 60, typical: 18, u: 0.2, when },
    tip: 'Books under the rear feet until the slope is right; rule from the desk to the underside of a foot',
  }),
});

/** What may be set of it. */
export const riserSizes = {
  cup: size('depth of the cup', { from: 2, to: 10, tip: 'How deep the old foot stands in a riser' }),
};

/** A cup in which an old round foot stands, tilted as the machine is: its floor rises to the back. The middle of the
 *  floor is the origin; everything above the cup's rim is cut away. mm, radians. */
export interface FootCup {
  /** Diameter of the old foot. */
  readonly foot: number;
  readonly deep: number;
  readonly tilt: number;
  /** Size of the body from front to back. */
  readonly base: number;
  /** Height of the floor's middle above the desk. */
  readonly rise: number;
  /** What it is expected to carry, and the whole weight, N. */
  readonly load: number;
  readonly weight: number;
  readonly material: Material;
  readonly drawn: Drawn;
}

/** Chamfer of the cup's mouth, mm. */
const MOUTH = 0.6;
/** Wider than any part, mm. */
const BEYOND = 400;
/** How far the old foot is drawn above its face, mm. */
export const FOOT_SHOWN = 8;

/** Turned about x, so that what was up leans to the front by `tilt` radians. */
export const leant = (tilt: number): Placement => {
  const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
  return { rotation: [1, 0, 0, 0, c, -s, 0, s, c], translation: [0, 0, 0] };
};

/** Height of plastic above the floor's middle that the body must have for the cup's rim, mm. */
export const rimHeight = ({ deep, tilt, base }: Pick<FootCup, 'deep' | 'tilt' | 'base'>): number =>
  deep / Math.cos(tilt) + (base / 2) * Math.tan(tilt) + 1;

/** Steepest a machine may be leant, radians: 20 degrees. */
const STEEPEST = Math.PI / 9;

/** The cup: what is cut, how the foot fits in it (`cup`), the foot itself; whether the machine leans too much, and
 *  whether the riser slides or tips. */
export function footCup(of: FootCup): Feature {
  const { foot, deep, tilt, rise, drawn } = of;
  const up: Vec3 = [0, -Math.sin(tilt), Math.cos(tilt)];
  const turned = (shape: Shape): Shape => placed(shape, leant(tilt));
  const width = drawn.cup ?? foot;
  const middle = (deep - MOUTH) / 2;
  return {
    cut: () =>
      turned(
        union(
          cylinder({ axis: 'z', diameter: width, from: [0, 0, 0], length: deep + 1, sense: 'bore' }),
          cylinder({
            ...{ axis: 'z', diameter: width, endDiameter: width + 4 * MOUTH, sense: 'bore' },
            ...{ from: [0, 0, deep - MOUTH], length: 2 * MOUTH },
          }),
          block([-BEYOND, -BEYOND, deep], [BEYOND, BEYOND, BEYOND]),
        ),
      ),
    interfaces: [
      bore('cup', {
        ...{ name: 'old foot in cup', host: foot, fit: { lo: 0.3, hi: 1 } },
        ...{ at: [0, up[1] * middle, up[2] * middle], axis: up, length: deep - MOUTH, across: [1, 0, 0] },
      }),
    ],
    callouts: {
      footDiameter: astride('x', foot, turn(leant(tilt), [0, 0, FOOT_SHOWN])),
      rise: between([0, 0, -rise], [0, 0, 0]),
    },
    rules: [
      sane(
        tilt <= STEEPEST,
        'rise',
        `leans the machine by more than ${degrees(STEEPEST).toFixed(0)} degrees, where it slides off (${degrees(tilt).toFixed(1)} degrees)`,
      ),
    ],
    findings: () => riserFindings(of),
    hosts: () => [
      {
        ...{ id: 'foot', name: 'old foot', keepOff: 0, seat: up, meets: ['cup', 'height'] },
        shape: turned(
          cylinder({ axis: 'z', diameter: foot, from: [0, 0, 0], length: FOOT_SHOWN, sense: 'shaft' }),
        ),
      },
    ],
    steps: [
      { kind: 'place', sentence: 'Lift the back of the machine, a second pair of hands for a heavy one' },
      {
        kind: 'place',
        sentence: 'Set the risers under the rear feet, the high side of the cups to the back',
      },
    ],
  };
}

/** Level push on a machine from typing, or a cable that is tugged, N. Common practice, no source. */
const PUSH = 5;

function riserFindings({ rise: height, base, load, weight, tilt, material }: FootCup): FamilyFinding[] {
  const friction = material.frictionOnSteel;
  const push = (PUSH * load) / weight;
  const stays = riserStability({
    ...{ slope: tilt, height, base, loadAt: base / 2, load, push },
    // The cup holds the foot: nothing slides on top.
    ...{ frictionTop: Math.tan(tilt) + 1, frictionDesk: friction.lo },
  });
  const at = [0, 0, -height] as const;
  const share = `its share of a ${PUSH} N push on the machine, ${push.toFixed(1)} N`;
  return [
    {
      ...{ id: 'lean', title: 'tilt of the case', value: degrees(tilt), limit: STEEP, side: 'below' },
      ...{ missed: 'caution', unit: 'deg', at: [0, 0, 0] },
      because: `${height.toFixed(2)} mm under the rear feet lean the case forward by ${degrees(tilt).toFixed(1)} degrees`,
      ...{ source: 'geometry; limit: common practice, no source', remedy: 'a lower riser' },
    },
    {
      ...{ id: 'slides', title: 'friction it takes to stay on the desk', value: stays.deskFriction },
      ...{ limit: friction.lo, side: 'below', missed: 'caution', unit: '1', at },
      because: `${share}, against ${load.toFixed(1)} N that press it down; ${material.name} on a smooth desk has ${friction.lo} or more, taken as on steel`,
      source: friction.source,
      remedy: 'print it in TPU, or stick a disc of rubber under it',
    },
    {
      ...{ id: 'tips', title: 'push that tips the riser', value: stays.tippingPush, limit: push },
      ...{ side: 'above', unit: 'N', at },
      because: `${load.toFixed(1)} N in the middle of a base of ${base.toFixed(1)} mm hold it down against ${share}, at ${height.toFixed(2)} mm`,
      ...{ source: 'statics', remedy: 'a wider base, or a lower riser' },
    },
  ];
}
