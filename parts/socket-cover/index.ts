import {
  accessGaps,
  armGap,
  armSpecs,
  astride,
  connectorChoice,
  connectorHole,
  connectorReadings,
  coverPlate,
  coverPlug,
  type Drawn,
  dangerChoice,
  type Feature,
  faceLabel,
  family,
  fingerPlate,
  glueBand,
  LABEL_DEPTH,
  labelAsks,
  type Made,
  nosesIds,
  notFitFor,
  oneOf,
  openingRules,
  panelAround,
  panelCallouts,
  panelChoices,
  panelReadings,
  partsBehind,
  plateBand,
  plugIds,
  screwPair,
  screwReadings,
  size,
  spacingReadings,
  springArms,
  up,
  ventAsks,
  ventLayout,
  ventSlots,
} from '../../src/family/index.ts';
import { type Cover, layout, normalSizes } from './cover.ts';

/** The cover as a list of what it is made of. */
function features(d: Cover, drawn: Drawn): Feature[] {
  const { row, plate, plug, arms, screws, connector, label, vents, at, through } = layout(d, drawn);
  const { material, choices } = d;
  const hole = connector?.connectorDiameter ?? null;
  const slots = vents && { vent: vents.vent, bar: ventLayout(vents).bar };
  const pushed = {
    opening: row.opening,
    thickness: through,
    sunk: label ? LABEL_DEPTH : 0,
    hole,
    slots,
    material,
  };
  const meets = ['plate.width', 'plate.height', ...plugIds(row), ...nosesIds(row)];
  const around = (made: Made): number => (hole === null ? 0 : (made.prints['connector.body'] ?? hole) - hole);
  return [
    { rules: openingRules(row), hosts: () => [panelAround(plate, d.panelThickness, d.screw, meets)] },
    ...(connector ? [connectorHole(connector, drawn)] : []),
    ...[coverPlate(plate, drawn), coverPlug(plug, drawn)],
    ...(arms ? [springArms(arms, drawn)] : []),
    ...(screws ? screwPair(screws, drawn) : []),
    ...(choices.held === 'glue' ? [glueBand(plateBand(plate, drawn), at)] : []),
    ...(label ? [faceLabel(label)] : []),
    ...(vents ? [ventSlots(vents)] : []),
    fingerPlate(pushed, at),
    accessGaps(
      (made) => [
        { name: 'slots', width: vents?.vent ?? 0 },
        { name: 'gap under the plate when it is pulled', width: arms ? armGap(arms, made) : 0 },
        { name: 'gap around the connector', width: around(made) },
      ],
      at,
    ),
    notFitFor(choices.behind, material, at),
    partsBehind({ ...d, row, near: choices.near }),
  ];
}

function callouts(d: Cover) {
  const { connector, through } = layout(d, {});
  const { x, y } = connector?.cell ?? { x: 0, y: 0 };
  const out = through + 3;
  return {
    ...panelCallouts(d),
    screw: astride('x', d.screw, [-d.screwSpacing / 2, 0, -d.panelThickness - 3]),
    head: astride('x', d.head, [d.screwSpacing / 2, 0, out]),
    screwSpacing: astride('x', d.screwSpacing, [0, 0, -d.panelThickness]),
    connectorDiameter: astride('x', d.connectorDiameter, [x, y, out]),
    connectorFlat: astride('y', d.connectorFlat, [x, y, out]),
  };
}

const screwed = (c: Readonly<Record<string, string>>): boolean => c.held === 'screws';
const { screw, head } = screwReadings(screwed);

/** A cover for an opening in a panel where a socket used to be.
 *  Frame: the face the cover rests on is z = 0, that of the panel or the floor of a recess in it; +z outwards, x to the right and
 *  y up as seen from outside, origin in the middle of the openings. */
export default family({
  id: 'socket-cover',
  title: 'Socket cover',
  version: 1,
  summary: 'closes an opening in a panel where a socket used to be, or takes a new connector there',
  readings: { ...panelReadings(), screw, head, ...spacingReadings(screwed), ...connectorReadings() },
  choices: {
    ...panelChoices(),
    held: oneOf(
      'held by',
      ['screws', 'spring arms', 'glue'],
      'spring arms',
      'Arms click behind the edge of the panel; screws go through holes that are there; glue or tape holds the rim',
    ),
    ...{
      connector: connectorChoice,
      lettering: labelAsks.lettering,
      vents: ventAsks.vents,
      behind: dangerChoice,
    },
  },
  texts: { label: labelAsks.label },
  sizes: {
    flange: size('plate', {
      from: 1,
      to: 5,
      tip: 'Thickness of the plate; flush it is as thick as the recess is deep',
    }),
    overlap: size('overlap', { from: 1, to: 12, tip: 'How far the plate reaches over the panel' }),
    ...{ ...armSpecs, vent: ventAsks.vent, letterHeight: labelAsks.letterHeight },
  },
  normalSizes,
  callouts,
  features,
  lay: () => ({ name: 'outer face down', turn: up['-z'] }),
});
