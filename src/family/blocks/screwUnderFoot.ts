import { compressBlock } from '../../strength/rubberBlock.ts';
import { size } from '../choice.ts';
import type { FamilyFinding } from '../familyFinding.ts';
import type { Feature, Made } from '../feature.ts';
import { sane } from '../rule.ts';
import { deskOf, type FootBody, underLoad } from './footBody.ts';
import { screwHole } from './screwHole.ts';

/** What may be set of a screw that holds a foot. */
export const screwSizes = {
  sink: size('sink of the head', { from: 0.5, to: 6, tip: 'How far the screw head stays above the desk' }),
};

/** A screw up through a foot, its head sunk into the desk face. mm. */
export interface ScrewUnderFoot {
  readonly body: FootBody;
  readonly screw: number;
  readonly head: number;
  readonly headHeight: number;
  readonly sink: number;
  /** The lowest of the feet the job makes, and the reading to blame when it is too low. */
  readonly lowest: { readonly height: number; readonly field: string };
}

/** Plastic that the head must have under it, mm; and as a share of the screw's diameter, to be tightened as one is
 *  used to. Common practice, no source. */
const PLATE = { least: 1, share: 0.5 } as const;
/** How far the head must stay off the desk under the worst load, mm: it would scratch. Common practice, no source. */
const OFF_DESK = 0.3;

/** The hole for the screw with its counterbore, the plastic left under the head, and how far the head stays off the
 *  desk. */
export function screwUnderFoot(of: ScrewUnderFoot): Feature {
  const { body, screw, headHeight, sink, lowest } = of;
  const through = body.top - deskOf(body);
  const sunk = headHeight + sink;
  const left = lowest.height - sunk;
  return {
    ...screwHole({
      ...{ id: 'screw', name: 'screw', at: [0, 0, body.top - through], into: 1, through, screw },
      head: { kind: 'flat', diameter: of.head, height: headHeight, sunk: Math.min(sunk, 0.9 * through) },
      drawn: body.drawn,
    }),
    rules: [
      sane(
        left >= PLATE.least,
        lowest.field,
        `leaves no plastic under the screw's head (${left.toFixed(2)} mm, at least ${PLATE.least} mm; head ${headHeight.toFixed(2)} mm, sunk by another ${sink.toFixed(2)} mm)`,
      ),
      sane(
        of.head > screw + 0.5,
        'head',
        `must be wider than the screw (head ${of.head.toFixed(2)} mm, screw ${screw.toFixed(2)} mm)`,
      ),
    ],
    findings: (made) => findingsOf(of, made),
    steps: [
      { kind: 'place', sentence: 'Turn the screw in by hand until the foot no longer turns, and no further' },
    ],
  };
}

function findingsOf({ body, screw, headHeight, sink }: ScrewUnderFoot, { prints }: Made): FamilyFinding[] {
  const under = underLoad(body);
  const height = prints.height ?? under.asked;
  const plate = height - headHeight - sink;
  const worst = Math.max(...(body.corner === null ? body.stance.most : [body.stance.most[body.corner]!]));
  const { deflection } = compressBlock({ ...under.block, height }, worst);
  const at = [0, 0, body.top - plate] as const;
  return [
    {
      ...{ id: 'plate', title: "plastic under the screw's head", value: plate, unit: 'mm', at },
      ...{ limit: Math.max(PLATE.least, PLATE.share * screw), side: 'above', missed: 'caution' },
      because: `the foot prints ${height.toFixed(2)} mm high; head and sink take ${(headHeight + sink).toFixed(2)} mm of it`,
      source: 'half the screw across; common practice, no source',
      remedy: 'less sink, a lower head, or a higher foot; and tighten it with care',
    },
    {
      ...{ id: 'head', title: 'screw head off the desk', value: sink - deflection, unit: 'mm', at },
      ...{ limit: OFF_DESK, side: 'above' },
      because: `sunk by ${sink.toFixed(2)} mm; under ${worst.toFixed(1)} N, the most it may carry, the foot gives way ${deflection.toFixed(2)} mm`,
      source: 'rubber block after Gent and Lindley; limit: common practice, no source',
      remedy: 'more sink, or a harder material',
    },
  ];
}
