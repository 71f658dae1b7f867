// The declaration API: all that a folder under parts/ may import.
export { windowOf } from '../fit/classes.ts';
export { chordError, facets } from '../solid/facets.ts';
export { lettering, letteringWidth } from '../solid/lettering.ts';
export { up } from '../solid/placement.ts';
export { block, cylinder, hull, prism } from '../solid/primitives.ts';
export {
  area,
  circle,
  dShape,
  hexagon,
  hydraulicDiameter,
  rectangle,
  roundedRectangle,
  stadium,
} from '../solid/profile.ts';
export { difference, intersection, moved, placed, type Shape, union } from '../solid/shape.ts';
export type { Contour, Placement, Vec2, Vec3 } from '../solid/vector.ts';
export type { Material } from '../standards/materials.ts';
export { tiltAngle } from '../strength/riserStability.ts';
export { formatLength } from '../units/index.ts';
export { accessGaps } from './blocks/accessGaps.ts';
export { type BarHollow, barHollow } from './blocks/barHollow.ts';
export { barReading, swingReadings } from './blocks/barReadings.ts';
export { connectorChoice, connectorHole, connectorReadings } from './blocks/connectorHole.ts';
export { coverPlate, panelAround, plateBand } from './blocks/coverPlate.ts';
export { coverPlug, plugIds } from './blocks/coverPlug.ts';
export { clearOfCorners, faceCells } from './blocks/faceCells.ts';
export { faceLabel, fittingHeight, LABEL_DEPTH, labelAsks } from './blocks/faceLabel.ts';
export { fingerPlate } from './blocks/fingerPlate.ts';
export { deskOf, type FootBody, footBody, footLay, footSizes } from './blocks/footBody.ts';
export { FOOT_SHOWN, footCup, leant, rimHeight, riserReadings, riserSizes } from './blocks/footCup.ts';
export type { PadOutline } from './blocks/footPad.ts';
export {
  anyHeight,
  type Corner,
  cornerHeights,
  corners,
  machineOnFeet,
  type Seen,
  stanceOf,
  standingReadings,
} from './blocks/fourFeet.ts';
export { glueBand } from './blocks/glueBand.ts';
export { groundPlate } from './blocks/groundPlate.ts';
export { hangingBody } from './blocks/hangingBody.ts';
export { dangerChoice, notFitFor } from './blocks/notFitFor.ts';
export { openingRules, rowSpan } from './blocks/panelOpening.ts';
export { panelCallouts, panelChoices, panelReadings, panelRecess, panelRow } from './blocks/panelReadings.ts';
export { partsBehind } from './blocks/partsBehind.ts';
export {
  pushInStem,
  stemChoices,
  stemReadings,
  stemSizes,
  stemWell,
  stemWellWidth,
} from './blocks/pushInStem.ts';
export { roomAround, roomReadings } from './blocks/roomAround.ts';
export {
  type ScrewHole,
  type SunkHead,
  screwHole,
  screwReadings,
} from './blocks/screwHole.ts';
export { screwPair, screwRim, spacingReadings } from './blocks/screwPair.ts';
export { screwSizes, screwUnderFoot } from './blocks/screwUnderFoot.ts';
export { seatAround } from './blocks/seatAround.ts';
export { snapMouth } from './blocks/snapMouth.ts';
export { socketPost } from './blocks/socketPost.ts';
export { normalPost, socketChoices, socketReadings, socketSizes } from './blocks/socketReadings.ts';
export { armBay, armGap, armSizes, armSpecs, armSweep, nosesIds, springArms } from './blocks/springArms.ts';
export { inRecess, recessSolid, stickOn, stickOnReadings, stickOnSizes } from './blocks/stickOn.ts';
export { type Swing, swing } from './blocks/swing.ts';
export { swingingBar } from './blocks/swingingBar.ts';
export { ventAsks, ventLayout, ventSlots } from './blocks/ventSlots.ts';
export { astride, between, type Callout } from './callout.ts';
export { line, oneOf, ratio, size } from './choice.ts';
export { type Family, type FamilyChange, family, type Lay } from './family.ts';
export type { FamilyFinding } from './familyFinding.ts';
export type { Feature, Made } from './feature.ts';
export { bore, type Interface, post, rib, slot, step } from './interface.ts';
export type { Load, MouthLoad, Route, RouteStep, SocketWall } from './load.ts';
export type { HostPart, Pose } from './machine.ts';
export type { Member } from './member.ts';
export { byRule, depth, inside, insideRound, outside, weighed } from './reading.ts';
export { type Rule, sane } from './rule.ts';
export type { Drawn, Values } from './values.ts';
