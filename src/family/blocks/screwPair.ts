import type { Vec3 } from '../../solid/vector.ts';
import type { Choices } from '../choice.ts';
import type { Feature } from '../feature.ts';
import { step } from '../interface.ts';
import { outside } from '../reading.ts';
import { type Rule, sane } from '../rule.ts';
import type { Drawn } from '../values.ts';
import { screwHole } from './screwHole.ts';

/** Two screws left and right of what lies between them, through a plate with its back on z = 0, mm. */
export interface ScrewPair {
  readonly screw: number;
  readonly head: number;
  readonly screwSpacing: number;
  /** Plastic they go through. */
  readonly through: number;
  /** Width of what lies between them: openings. */
  readonly between: number;
}

/** How far middles of holes may be off, mm: what two free holes at the tight end of their play still take up, with some to spare. */
const SPACING = 0.2;
/** Plastic beside a head and a hole, mm. Common practice, no source. */
const RIM = { head: 0.6, hole: 1.6 } as const;

/** What the plate needs around the middle of each screw, mm. */
export const screwRim = ({ screw, head }: Pick<ScrewPair, 'screw' | 'head'>): number =>
  Math.max(head / 2 + RIM.head, screw / 2 + RIM.hole);

/** What is asked besides the screw itself. */
export const spacingReadings = (when: (choices: Choices) => boolean) => ({
  screwSpacing: outside('screw spacing', {
    ...{ from: 8, to: 300, typical: 48, when },
    tip: 'Left edge of one screw hole to the left edge of the other, in the panel; both holes must be of one size',
  }),
});

/** The two screws: holes with their fits (`screws.left`, `screws.right`), the distance of their middles (`screws.spacing`), and that they clear what
 *  lies between them.
 *  @example screwPair({ screw: 3, head: 5.5, screwSpacing: 48, through: 2, between: 34 }, drawn).map(({ holes }) => holes) // => [1, 1, undefined] */
export function screwPair(
  { screw, screwSpacing, through, between }: Omit<ScrewPair, 'head'>,
  drawn: Drawn,
): Feature[] {
  const half = (drawn['screws.spacing'] ?? screwSpacing) / 2;
  const hole = (side: 'left' | 'right'): Feature =>
    screwHole({
      ...{ id: `screws.${side}`, name: `${side} screw`, into: -1, through, screw, drawn },
      at: [side === 'left' ? -half : half, 0, through],
    });
  const apart: Rule = sane(
    screwSpacing >= between + screw + 1,
    'screwSpacing',
    `puts the screws into the opening (spacing ${screwSpacing.toFixed(2)} mm, opening ${between.toFixed(2)} mm wide, screw ${screw.toFixed(2)} mm)`,
  );
  return [
    hole('left'),
    hole('right'),
    {
      rules: [apart],
      interfaces: [
        step('screws.spacing', {
          ...{
            name: 'screw to screw',
            host: screwSpacing,
            fit: { lo: -SPACING, hi: SPACING },
            centres: true,
          },
          ...{ at: [half, 0, through / 2] as Vec3, axis: [0, 0, -1], across: [-1, 0, 0], length: through },
        }),
      ],
      steps: [
        {
          kind: 'place',
          sentence: 'Set the plug into the opening and start both screws by hand before either is tightened',
        },
        { kind: 'place', sentence: 'Tighten until the heads just bear: plastic creeps under more' },
      ],
    },
  ];
}
