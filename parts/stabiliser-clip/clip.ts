import type { Drawn } from '../../src/family/index.ts';

/** What the declaration hands to its functions; names as on the sheet, mm. */
export interface Clip {
  readonly barDiameter: number;
  readonly farSide: number;
  readonly socketWidth: number;
  readonly socketLength: number;
  readonly socketDiameter: number;
  readonly socketDepth: number;
  readonly socketWall: number;
  readonly roomAcross: number;
  readonly roomAlong: number;
  readonly engagement: number;
  readonly axialRoom: number;
  readonly reach: number;
  readonly hingeHeight: number;
  readonly restHeight: number;
  readonly travel: number;
  readonly arm: number;
  readonly mouthShare: number;
  readonly shoulder: number;
  readonly postLength: number;
  readonly leadIn: number;
  readonly choices: Readonly<Record<'post' | 'ribs' | 'guide' | 'mouth' | 'lay', string>>;
}

/** From the keycap's underside to the middle of the bar: what differs between sister machines. */
export const dropOf = (d: Clip): number => d.farSide - d.barDiameter / 2;

/** Height of the bar's end above its hinge line, `down` mm into the key's travel. */
const heightOf = (d: Clip, down: number): number => d.restHeight - dropOf(d) - d.hingeHeight - down;

/** How far the bar's end has slid in the clip, `down` mm into the travel: the end runs on a circle about the hinge
 *  line while the key goes straight, y = sqrt(reach^2 - height^2). Positive is away from the hinge. */
export const slideAt = (d: Clip, down: number): number =>
  Math.sqrt(d.reach ** 2 - heightOf(d, down) ** 2) - Math.sqrt(d.reach ** 2 - heightOf(d, 0) ** 2);

/** Swing of the bar since the key was up, radians about x. */
export const swingAt = (d: Clip, down: number): number =>
  Math.asin(heightOf(d, 0) / d.reach) - Math.asin(heightOf(d, down) / d.reach);

/** Slope of the bar's leg with the key up, radians above the plate. */
export const slopeOf = (d: Clip): number => Math.asin(heightOf(d, 0) / d.reach);

/** The whole slide over the travel: least, greatest and middle, mm. The end passes its furthest point when the bar
 *  lies level, which may be within the travel. */
export function slideOf(d: Clip): { least: number; greatest: number; range: number; middle: number } {
  const level = Math.min(d.travel, Math.max(0, heightOf(d, 0)));
  const at = [0, level, d.travel].map((down) => slideAt(d, down));
  const [least, greatest] = [Math.min(...at), Math.max(...at)];
  return { least, greatest, range: greatest - least, middle: (least + greatest) / 2 };
}

/** Every length of the clip as drawn, mm. A size not planned yet stands at its machine size. */
export function layout(d: Clip, drawn: Drawn) {
  const slotted = d.choices.guide === 'slot';
  const slide = slideOf(d);
  const width = drawn.bar ?? d.barDiameter;
  const overall = slotted ? Math.max(width, drawn['bar.run'] ?? d.barDiameter + slide.range) : width;
  const round = d.choices.post === 'round';
  const postWidth = drawn['socket.width'] ?? (round ? d.socketDiameter : d.socketWidth);
  // Laid on its side a round post gets flats where its flank would overhang by more than 45 degrees. Upright the body is
  // a little deeper than the post, because a cylinder that only touches a face makes a seam of no thickness.
  const roundDepth = d.choices.lay === 'side' ? postWidth * Math.SQRT1_2 : postWidth + 0.4;
  const depth = round ? roundDepth : (drawn['socket.length'] ?? d.socketLength);
  const drop = drawn.drop ?? dropOf(d);
  const outer = width / 2 + d.arm;
  const middle = slotted ? slide.middle : 0;
  const mouth = d.choices.mouth === 'open' ? (drawn.mouth ?? d.barDiameter * d.mouthShare) : 0;
  const flat = (overall - width) / 2;
  const lip =
    mouth / 2 <= flat ? width / 2 : Math.sqrt((width / 2) ** 2 - Math.min(width / 2, mouth / 2 - flat) ** 2);
  return {
    slotted,
    slide,
    width,
    overall,
    round,
    postWidth,
    depth,
    drop,
    outer,
    middle,
    mouth,
    flat,
    lip,
    /** Half the width of the body around the slot, and of the shoulder on either side of the socket's middle. */
    half: overall / 2 + d.arm,
    left: Math.min(middle - overall / 2 - d.arm, -postWidth / 2 - d.shoulder),
    right: Math.max(middle + overall / 2 + d.arm, postWidth / 2 + d.shoulder),
    /** Thickness of the shoulder, and depth of the flare below the mouth. */
    head: Math.max(0.8, Math.min(1.6, drop - width / 2)),
    flare: (outer - lip) / 2,
  };
}

/** Half angle of the flare that leads the bar into the mouth. */
export const flareAngle = Math.PI / 6;
