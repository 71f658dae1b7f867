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
  hydraulicDiameter,
  rectangle,
  roundedRectangle,
  stadium,
} from '../solid/profile.ts';
export { difference, intersection, moved, placed, type Shape, union } from '../solid/shape.ts';
export type { Contour, Placement, Vec2, Vec3 } from '../solid/vector.ts';
export { type ScrewHole, type SunkHead, screwHole, screwReadings } from './blocks/screwHole.ts';
export { formatLength } from '../units/index.ts';
export { type BarHollow, barHollow } from './blocks/barHollow.ts';
export { barReading, swingReadings } from './blocks/barReadings.ts';
export { groundPlate } from './blocks/groundPlate.ts';
export { hangingBody } from './blocks/hangingBody.ts';
export { roomAround, roomReadings } from './blocks/roomAround.ts';
export { seatAround } from './blocks/seatAround.ts';
export { snapMouth } from './blocks/snapMouth.ts';
export { socketPost } from './blocks/socketPost.ts';
export { normalPost, socketChoices, socketReadings, socketSizes } from './blocks/socketReadings.ts';
export { type Swing, swing } from './blocks/swing.ts';
export { swingingBar } from './blocks/swingingBar.ts';
export { astride, between } from './callout.ts';
export { line, oneOf, ratio, size } from './choice.ts';
export {
  type Callout,
  type Drawn,
  type Family,
  type FamilyFinding,
  family,
  type Lay,
  type Rule,
  sane,
  type Values,
} from './family.ts';
export type { Feature, Made } from './feature.ts';
export { bore, type Interface, post, rib, slot, step } from './interface.ts';
export type { Load, MouthLoad, Route, RouteStep, SocketWall } from './load.ts';
export type { HostPart, Pose } from './machine.ts';
export type { Member } from './member.ts';
export { byRule, depth, inside, insideRound, outside, weighed } from './reading.ts';
