import { block, cylinder } from '../../solid/primitives.ts';
import type { Shape } from '../../solid/shape.ts';
import { adhesiveArea, STICK_ON_CAUTION } from '../../strength/adhesiveArea.ts';
import { compressBlock } from '../../strength/rubberBlock.ts';
import { astride, between } from '../callout.ts';
import { type Choices, size } from '../choice.ts';
import type { FamilyFinding } from '../familyFinding.ts';
import type { Feature, Made } from '../feature.ts';
import { type Interface, post } from '../interface.ts';
import { depth, inside, insideRound } from '../reading.ts';
import { sane } from '../rule.ts';
import type { Drawn } from '../values.ts';
import type { FootBody } from './footBody.ts';
import { type PadOutline, padBlock, padWidth } from './footPad.ts';
import { footCompound } from './footUnderLoad.ts';

/** What a family that is stuck into a recess asks, of a round and of a rectangular one. As `when` of `ReadingSpec`. */
export const stickOnReadings = (
  round: (choices: Choices) => boolean,
  rectangular: (choices: Choices) => boolean,
) => ({
  recessDiameter: insideRound('recess diameter', {
    ...{ from: 6, to: 50, typical: 16, when: round },
    tip: 'Small jaws across the recess at half its depth, a quarter turn between readings',
  }),
  recessWidth: inside('recess width', {
    ...{ from: 6, to: 50, typical: 14, when: rectangular },
    tip: 'Small jaws across the recess from left to right as the machine stands, at half its depth',
  }),
  recessLength: inside('recess length', {
    ...{ from: 6, to: 60, typical: 28, when: rectangular },
    tip: 'Small jaws along the recess from front to back as the machine stands, at half its depth',
  }),
  recessDepth: depth('recess depth', {
    ...{ from: 0.5, to: 8, typical: 1.6, when: (c) => round(c) || rectangular(c) },
    tip: 'Beam end flat on the underside beside the recess, rod down to its floor; scrape old glue off first',
  }),
});

/** What may be set of it. */
export const stickOnSizes = {
  tape: size('tape', { from: 0.05, to: 3, tip: 'Thickness of the double-sided tape, pressed' }),
};

/** A body stuck with tape into a shallow recess of the machine's underside, z = 0. mm, N. */
export interface StickOn {
  /** The recess as measured. */
  readonly recess: PadOutline;
  readonly deep: number;
  readonly tape: number;
  /** The most it is expected to carry, N. */
  readonly load: number;
  /** The foot itself. */
  readonly body: FootBody;
}

/** The body's outline in the recess: `recess`, or `recess.width` and `recess.length` of a rectangle, as drawn or
 *  printed. */
export function inRecess(recess: PadOutline, sizes: Drawn): PadOutline {
  if (recess.kind === 'round') return { kind: 'round', diameter: sizes.recess ?? recess.diameter };
  const [x, y] = recess.size;
  return { kind: 'rectangular', size: [sizes['recess.width'] ?? x, sizes['recess.length'] ?? y] };
}

/** What comes of sticking the body in: its fits in the recess, the tape it rests against, how much tape it takes, and
 *  whether it has room to bulge. The body and the case are the family's to draw. */
export function stickOn(of: StickOn): Feature {
  const { recess, deep, tape } = of;
  const at = [0, 0, (deep - tape) / 2] as [number, number, number];
  const length = Math.max(0.1, deep - tape);
  const held = (id: string, name: string, host: number, across: [number, number, number]): Interface =>
    post(id, { name, host, fit: 'free', at, axis: [0, 0, 1], length, across });
  return {
    interfaces:
      recess.kind === 'round'
        ? [held('recess', 'foot in recess', recess.diameter, [1, 0, 0])]
        : [
            held('recess.width', 'foot in recess, width', recess.size[0], [1, 0, 0]),
            held('recess.length', 'foot in recess, length', recess.size[1], [0, 1, 0]),
          ],
    hosts: () => [
      {
        ...{ id: 'tape', name: 'tape', keepOff: 0, seat: [0, 0, 1] },
        shape: filled(recess, deep - tape, deep, 0.5),
      },
    ],
    callouts: calloutsOf(recess, deep),
    rules: [
      sane(
        deep - tape >= HELD,
        'tape',
        `leaves too little of the recess to hold the foot sideways (recess ${deep.toFixed(2)} mm, tape ${tape.toFixed(2)} mm, at least ${HELD} mm)`,
      ),
    ],
    findings: (made) => [tapeFinding(of), bulgeFinding(of, made)],
    cautions: [`A stick-on foot: ${STICK_ON_CAUTION}`],
    steps: [
      {
        kind: 'place',
        sentence: 'Scrape the recess clean, wipe it and the foot with alcohol, and let them dry',
      },
      { kind: 'place', sentence: 'Stick the tape on the foot, then press the foot home for half a minute' },
    ],
  };
}

/** Least of the body that must stand in the recess, mm. Common practice, no source. */
const HELD = 0.3;

function calloutsOf(recess: PadOutline, deep: number) {
  const [x, y] = recess.kind === 'round' ? [recess.diameter, recess.diameter] : recess.size;
  const rod = { recessDepth: between([x / 2, 0, 0], [x / 2, 0, deep]) };
  if (recess.kind === 'round') return { ...rod, recessDiameter: astride('x', x, [0, 0, deep]) };
  return {
    ...rod,
    recessWidth: astride('x', x, [0, -y / 2, 0]),
    recessLength: astride('y', y, [-x / 2, 0, 0]),
  };
}

/** The recess, to be taken out of the case. */
export const recessSolid = (recess: PadOutline, deep: number): Shape => filled(recess, -1, deep, 0);

/** What fills the recess between two heights, less `inset` mm all round. */
function filled(recess: PadOutline, from: number, to: number, inset: number): Shape {
  if (recess.kind === 'round')
    return cylinder({
      ...{ axis: 'z', diameter: recess.diameter - 2 * inset, from: [0, 0, from] },
      ...{ length: to - from, sense: 'bore' },
    });
  const [x, y] = recess.size.map((side) => side / 2 - inset) as [number, number];
  return block([-x, -y, from], [x, y, to]);
}

const areaOf = (outline: PadOutline): number =>
  outline.kind === 'round' ? (Math.PI * outline.diameter ** 2) / 4 : outline.size[0] * outline.size[1];

/** Force that tries to roll the foot out of its recess when the machine is pushed along, N: friction drags at its
 *  face, the recess holds it at the top, the load presses it back. Moments about the edge of the foot. */
function rollingPull({ load, body }: StickOn): number {
  const half = padWidth(body.outline) / 2;
  const out = body.asked - body.top;
  return Math.max(0, (body.material.frictionOnSteel.hi * load * out - load * half) / half);
}

/** Standard gravity, m/s^2 (ISO 80000-3). */
const GRAVITY = 9.80665;

function tapeFinding(of: StickOn): FamilyFinding {
  const { recess, deep, tape, load, body } = of;
  const friction = body.material.frictionOnSteel;
  const pull = rollingPull(of);
  const volume = areaOf(recess) * body.asked;
  const own = (volume / 1e6) * body.material.density.value * GRAVITY;
  return {
    ...{ id: 'tape', title: 'area of tape', value: areaOf(recess), side: 'above', unit: 'mm2' },
    limit: adhesiveArea({ lasting: own, momentary: pull }),
    because: `the recess takes what pushes sideways. Pushed along the desk, ${
      pull > 0
        ? `friction of up to ${friction.hi} tries to roll the foot out: beyond what the ${load.toFixed(1)} N on it hold down, ${pull.toFixed(1)} N are left to the tape`
        : `the ${load.toFixed(1)} N on it hold it down against friction of up to ${friction.hi}`
    }; lifted, its own ${own.toFixed(2)} N hang on the tape`,
    ...{ missed: 'caution', at: [0, 0, deep - tape] },
    source: `statics; tape: common practice, no source; friction, taken as on steel: ${friction.source}`,
    remedy:
      'lift the machine and do not push it, or glue the foot in with a contact glue that comes off again',
  };
}

function bulgeFinding(of: StickOn, { prints }: Made): FamilyFinding {
  const printed = inRecess(of.recess, prints);
  const room =
    of.recess.kind === 'round' && printed.kind === 'round'
      ? (of.recess.diameter - printed.diameter) / 2
      : Math.min(
          ...(of.recess.kind === 'rectangular' && printed.kind === 'rectangular'
            ? of.recess.size.map((side, k) => (side - printed.size[k]!) / 2)
            : [0]),
        );
  const height = prints.height ?? of.deep;
  const compound = footCompound(of.body.material, of.body.hardness);
  const { bulge } = compressBlock({ compound, outline: padBlock(printed), height }, of.load);
  return {
    ...{ id: 'bulge', title: 'room to bulge in the recess', value: bulge, limit: room, side: 'below' },
    ...{ missed: 'caution', unit: 'mm', at: [0, 0, of.deep - of.tape] },
    because: `under ${of.load.toFixed(1)} N its side stands out by ${bulge.toFixed(2)} mm at mid-height; the recess leaves ${room.toFixed(2)} mm a side`,
    source: 'volume kept, the edge bowed as a parabola (Gent and Lindley)',
    remedy: 'a harder material, or a looser fit in the recess',
  };
}
