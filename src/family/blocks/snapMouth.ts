import { prism } from '../../solid/primitives.ts';
import type { Contour } from '../../solid/vector.ts';
import { formatLength as mm } from '../../units/index.ts';
import type { Feature } from '../feature.ts';
import { slot } from '../interface.ts';
import type { RouteStep } from '../load.ts';
import { sane } from '../rule.ts';
import type { Drawn } from '../values.ts';
import type { BarHollow } from './barHollow.ts';

/** A mouth below a hollow, through which its bar snaps in from below. `arm` and `mouthShare` are sizes a family asks for
 *  by these names. */
export interface MouthOfHollow {
  /** Id of fit and load. */
  readonly id: string;
  /** For tables: "mouth of the clip". */
  readonly name: string;
  readonly hollow: BarHollow;
  /** Thickness of plastic around the hollow, mm. */
  readonly arm: number;
  /** Width of the printed mouth over the diameter of the bar, below 1. */
  readonly mouthShare: number;
  readonly drawn: Drawn;
}

export interface SnapMouth extends Feature {
  /** The action of snapping the bar in. In the hand nothing old takes the push. */
  readonly snap: (sentence: string, inHand: boolean) => RouteStep;
}

/** Half angle of the flare that leads the bar into the mouth. */
const FLARE = Math.PI / 6;
/** Least plastic of a lip below the hollow, mm. Common practice, no source. */
const LIP = 0.5;
/** How much of the bar's diameter the mouth may come out wider or narrower. Common practice, no source. */
const GRIP = 0.065;

/** The gap with its flare. Brings the cut, its fit, what loads the arms, and the rule that leaves lips; takes away the
 *  hole that the hollow would be.
 *  @example snapMouth({ id: 'mouth', name: 'mouth of the clip', hollow, arm: 1.1, mouthShare: 0.88, drawn }).holes // => -1 */
export function snapMouth({ id, name, hollow, arm, mouthShare, drawn }: MouthOfHollow): SnapMouth {
  const { bar, width, overall, middle, drop, deep, hydraulic } = hollow;
  const mouth = drawn[id] ?? bar * mouthShare;
  const outer = width / 2 + arm;
  const flat = (overall - width) / 2;
  /** How far below the hollow's middle the mouth meets its wall. */
  const lip =
    mouth / 2 <= flat ? width / 2 : Math.sqrt((width / 2) ** 2 - Math.min(width / 2, mouth / 2 - flat) ** 2);
  const flare = (outer - lip) / 2;
  return {
    snap: (sentence, inHand) => ({ kind: 'snap', sentence, load: id, inHand }),
    cut: () => prism('x', contour([mouth, flare], [middle, -drop, -drop - outer]), -deep, deep),
    holes: -1,
    interfaces: [
      slot(id, {
        ...{ at: [0, middle, -drop - (lip + outer - flare) / 2], axis: [1, 0, 0], length: deep },
        ...{ across: [0, 1, 0], name: `${id} on bar`, host: bar, hydraulic },
        fit: { lo: (mouthShare - GRIP - 1) * bar, hi: (mouthShare + GRIP - 1) * bar },
      }),
    ],
    loads: [
      {
        ...{ kind: 'mouth', id, name, interface: hollow.id, bar },
        ...{ at: [0, middle, -drop], normal: [1, 0, 0], inward: [0, 0, 1] },
        lips: [
          [-mouth / 2, -lip],
          [mouth / 2, -lip],
        ],
        ...{ flare: FLARE, entry: mouth + 2 * flare * Math.tan(FLARE), heldFrom: drop, depth: deep },
      },
    ],
    rules: [
      // Where the hollow has no length yet there is nothing to judge.
      sane(
        !(outer - lip <= LIP),
        'arm',
        `leaves lips too thin to hold the bar (${mm(outer - lip)}, at least ${mm(LIP)})`,
      ),
    ],
  };
}

/** The gap in (y, z), from the hollow's middle out through the bottom. */
function contour(
  [mouth, flare]: readonly [number, number],
  [y, top, bottom]: readonly [number, number, number],
): Contour {
  const open = mouth / 2 + (flare + 1) * Math.tan(FLARE);
  return [
    [y - open, bottom - 1],
    [y + open, bottom - 1],
    [y + mouth / 2, bottom + flare],
    [y + mouth / 2, top],
    [y - mouth / 2, top],
    [y - mouth / 2, bottom + flare],
  ];
}
