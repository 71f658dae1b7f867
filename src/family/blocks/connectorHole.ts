import { hull, prism } from '../../solid/primitives.ts';
import { area, circle, dShape } from '../../solid/profile.ts';
import { union } from '../../solid/shape.ts';
import type { Contour, Vec2, Vec3 } from '../../solid/vector.ts';
import { type Choices, oneOf } from '../choice.ts';
import type { FamilyFinding } from '../familyFinding.ts';
import type { Feature, Made } from '../feature.ts';
import { bore, type Interface, slot } from '../interface.ts';
import { outside } from '../reading.ts';
import { type Rule, sane } from '../rule.ts';
import type { Drawn } from '../values.ts';
import type { FaceCell } from './faceCells.ts';

/** A hole for a connector that is held by a nut, round or with a flat that keeps it from turning, mm. */
export interface ConnectorHole {
  readonly cell: FaceCell;
  readonly connectorDiameter: number;
  /** From the flat to the far side; null of a round one. */
  readonly connectorFlat: number | null;
  /** Plastic it goes through, from z = 0 up. */
  readonly through: number;
}

/** Chamfer at the outer face, mm. */
const MOUTH = 0.4;
/** A flat no further than this from the far side is refused, as a share of the diameter; no outline is drawn of it. */
const LEAST = 0.51;
/** Plastic to leave around the hole, mm, for flange and nut to press on. Common practice, no source. */
const RIM = 1.5;
/** Play before it is planned, mm: the middle of a sliding fit. */
const PLAY = 0.2;
/** Turn of the connector in its hole that a cable's twist is felt by, degrees. Common practice, no source. */
const TURNS = 12;

/** Whether there is a connector, and whether it has a flat. */
export const connectorChoice = oneOf(
  'connector',
  ['none', 'round', 'D'],
  'none',
  'A new hole for a connector that is held by a nut; D has a flat that keeps it from turning',
);

/** What is asked of the connector; the family's choice `connector` is `connectorChoice`. */
export const connectorReadings = () => ({
  connectorDiameter: outside('connector diameter', {
    ...{ from: 2.5, to: 40, typical: 8, when: (c: Choices) => c.connector !== 'none' },
    tip: 'Large jaws over the threaded body of the new connector, where it goes through the cover',
  }),
  connectorFlat: outside('connector across the flat', {
    ...{ from: 2, to: 40, typical: 7.2, when: (c: Choices) => c.connector === 'D' },
    tip: 'Large jaws from the flat on the threaded body to the far side of the round',
  }),
});

/** Outline of the hole, flat at the top. */
function outlineOf(
  { cell, connectorDiameter, connectorFlat }: ConnectorHole,
  drawn: Drawn,
  by: number,
): Contour {
  const diameter = (drawn['connector.body'] ?? connectorDiameter + PLAY) + 2 * by;
  const at: Vec2 = [cell.x, cell.y];
  if (connectorFlat === null) return circle(diameter, at, { sense: 'bore' });
  const across = (drawn['connector.flat'] ?? connectorFlat + PLAY) + 2 * by;
  return dShape(diameter, Math.min(Math.max(across, LEAST * diameter), diameter), at, { sense: 'bore' });
}

const aroundOf = (contour: Contour): number =>
  contour.reduce((sum, [x, y], k) => {
    const [u, v] = contour[(k + 1) % contour.length]!;
    return sum + Math.hypot(u - x, v - y);
  }, 0);

/** The hole: its cut, its fits (`connector.body` and, with a flat, `connector.flat`), rules, and how far the flat lets it turn.
 *  @example connectorHole({ cell, connectorDiameter: 8, connectorFlat: null, through: 2 }, drawn).holes // => 1 */
export function connectorHole(of: ConnectorHole, drawn: Drawn): Feature {
  const { cell, connectorDiameter, connectorFlat, through } = of;
  const outline = outlineOf(of, drawn, 0);
  const hydraulic = (4 * area(outline)) / aroundOf(outline);
  const common = {
    ...{ at: [cell.x, cell.y, (through - MOUTH) / 2] as Vec3, axis: [0, 0, -1] as Vec3 },
    ...({ length: through - MOUTH, fit: 'sliding' } as const),
  };
  const fits: Interface[] = [
    bore('connector.body', {
      ...{ ...common, name: 'connector in its hole', host: connectorDiameter, across: [1, 0, 0] },
      ...(connectorFlat !== null && { hydraulic }),
    }),
  ];
  if (connectorFlat !== null) {
    // From the flat to the far side: its middle lies below that of the round.
    const low = (drawn['connector.body'] ?? connectorDiameter) / 2;
    const y = cell.y + (drawn['connector.flat'] ?? connectorFlat) / 2 - low;
    fits.push(
      slot('connector.flat', {
        ...{ ...common, name: "connector's flat", host: connectorFlat, across: [0, 1, 0], hydraulic },
        at: [cell.x, y, common.at[2]],
      }),
    );
  }
  return {
    ...{ interfaces: fits, holes: 1, rules: rulesOf(of) },
    cut: () =>
      union(
        prism('z', outline, -1, through + 1),
        // Past the outer face the chamfer opens on at the same slope.
        hull(
          prism('z', outlineOf(of, drawn, 0), through - MOUTH - 0.01, through - MOUTH),
          prism('z', outlineOf(of, drawn, MOUTH + 0.5), through + 0.5, through + 0.51),
        ),
      ),
    hosts: () => [
      {
        ...{ id: 'connector', name: 'connector', keepOff: 0, loose: true, meets: fits.map(({ id }) => id) },
        shape: prism('z', bodyOf(of), -8, through + 5),
      },
    ],
    findings: (made) => (connectorFlat === null ? [] : [turnFinding(of, connectorFlat, made)]),
    steps: [
      {
        kind: 'place',
        sentence:
          'Bring the connector through its hole from outside, turn the nut on behind and solder it before the cover goes in',
      },
    ],
  };
}

function bodyOf({ cell, connectorDiameter, connectorFlat }: ConnectorHole): Contour {
  const at: Vec2 = [cell.x, cell.y];
  return connectorFlat === null
    ? circle(connectorDiameter, at, { sense: 'shaft' })
    : dShape(connectorDiameter, connectorFlat, at, { sense: 'shaft' });
}

function rulesOf({ cell, connectorDiameter: d, connectorFlat: flat }: ConnectorHole): Rule[] {
  const least = d + PLAY + 2 * RIM;
  return [
    sane(
      cell.width >= least && cell.height >= least,
      'connectorDiameter',
      `leaves no rim around its hole: ${least.toFixed(2)} mm are needed each way, ${cell.width.toFixed(2)} x ${cell.height.toFixed(2)} mm are there`,
    ),
    sane(
      flat === null || (flat > 0.6 * d && flat < d),
      'connectorFlat',
      `must lie between six tenths of the diameter and all of it (across the flat ${flat?.toFixed(2)} mm, diameter ${d.toFixed(2)} mm)`,
    ),
  ];
}

/** A body turns until the corners of its flat touch that of the hole: gap over half the flat's length, for small angles. */
function turnFinding(
  { cell, connectorDiameter: d, through }: ConnectorHole,
  flat: number,
  made: Made,
): FamilyFinding {
  const half = Math.sqrt((d / 2) ** 2 - (flat - d / 2) ** 2);
  // With the body pushed against the round, the flat has all of the play above it.
  const gap = Math.max(0, (made.prints['connector.flat'] ?? flat) - flat);
  const angle = (Math.atan(gap / half) * 180) / Math.PI;
  return {
    ...{
      id: 'connector.turn',
      title: 'turn of the connector in its hole',
      value: angle,
      limit: TURNS,
      unit: 'deg',
    },
    ...{ side: 'below', missed: 'caution', source: 'geometry; common practice, no source' },
    because: `the flat is ${(2 * half).toFixed(2)} mm long and has ${gap.toFixed(2)} mm of play, so the connector turns by ${angle.toFixed(1)} degrees before the flat stops it; the nut must do the rest`,
    remedy: 'a tighter fit of connector.flat, or a washer with teeth under the nut',
    at: [cell.x, cell.y, through],
  };
}
