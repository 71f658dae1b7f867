import type { Contour, Vec2 } from '../../../src/solid/vector.ts';

/** A clip as parameters, mm. The bore's centre (the lower one of a slot) is the origin; the mouth opens downwards. */
export interface ClipProfile {
  readonly name: string;
  /** Diameter of the bore, or width of the slot. */
  readonly bore: number;
  /** Distance between the two centres of a slot along y; 0 for a round bore. */
  readonly slot: number;
  /** Width of the mouth where it is narrowest. */
  readonly mouth: number;
  /** Thickness of the arms beside the bore. */
  readonly arm: number;
  /** Width of the flare at the bottom; the mouth's own width for none. */
  readonly flare: number;
  /** Height of material above the bore up to where the body is held. */
  readonly above: number;
  /** `ring`: arms of one thickness around the bore, under a body as wide as the ring;
   *  `block`: a rectangular body with the bore in it; `post`: a ring that hangs on a narrower post. */
  readonly shape: 'ring' | 'block' | 'post';
}

/** One step of an outline: a line to `to`, or an arc to `to` about `centre`, the shorter way round. */
export interface Step {
  readonly to: Vec2;
  readonly centre?: Vec2;
}

/** Right half of the outline, counter-clockwise from the lip: flare, outside, top, and, from the axis down, the bore
 *  back to the lip. The step numbered `axis` runs down the axis of symmetry. */
export function halfOutline(clip: ClipProfile): { lip: Vec2; steps: Step[]; axis: number; top: number } {
  const r = clip.bore / 2;
  const outer = r + clip.arm;
  const lip: Vec2 = [clip.mouth / 2, -Math.sqrt(r * r - clip.mouth ** 2 / 4)];
  const flare = clip.flare / 2;
  const roof = clip.slot + r;
  let top = roof + clip.above;
  const steps: Step[] = [];
  if (clip.shape === 'block')
    steps.push({ to: [flare, -outer] }, { to: [outer, -outer] }, { to: [outer, top] });
  else {
    steps.push(
      { to: [flare, -Math.sqrt(outer * outer - flare * flare)] },
      { to: [outer, 0], centre: [0, 0] },
    );
    if (clip.slot > 0) steps.push({ to: [outer, clip.slot] });
    if (clip.shape === 'ring') steps.push({ to: [outer, top] });
    else {
      const neck = 0.6 * outer;
      const meets = clip.slot + 0.8 * outer;
      top = Math.max(top, meets + 0.5);
      steps.push({ to: [neck, meets], centre: [0, clip.slot] }, { to: [neck, top] });
    }
  }
  steps.push({ to: [0, top] }, { to: [0, roof] });
  const axis = steps.length - 1;
  steps.push({ to: [r, clip.slot], centre: [0, clip.slot] });
  if (clip.slot > 0) steps.push({ to: [r, 0] });
  steps.push({ to: lip, centre: [0, 0] });
  return { lip, steps, axis, top };
}

export interface DrawnClip {
  readonly contours: Contour[];
  readonly lips: [Vec2, Vec2];
  readonly fixedAbove: number;
}

/** The whole profile in facets, as a drawing hands it over: chord error 0.005 mm. */
export function drawClip(clip: ClipProfile, chordError = 0.005): DrawnClip {
  const { lip, steps, axis, top } = halfOutline(clip);
  const points: Vec2[] = [lip];
  let toAxis = 0;
  steps.forEach((step, i) => {
    if (i === axis) toAxis = points.length;
    points.push(...facets(points[points.length - 1]!, step, chordError));
  });
  points.pop(); // the lip again
  // Down the outside on the right, over the top, and the mirrored rest: axis points occur once on each side.
  const outside = points.slice(0, toAxis - 1);
  const bore = points.slice(toAxis);
  const mirrored = (half: Vec2[]): Vec2[] => half.map(([x, y]): Vec2 => [-x, y]).reverse();
  const contour: Contour = [...outside, ...mirrored(outside), ...mirrored(bore), ...bore.slice(1)];
  return { contours: [contour], lips: [[-lip[0], lip[1]], lip], fixedAbove: top };
}

function facets(from: Vec2, { to, centre }: Step, chordError: number): Vec2[] {
  if (centre === undefined) return [to];
  const radius = Math.hypot(to[0] - centre[0], to[1] - centre[1]);
  const start = Math.atan2(from[1] - centre[1], from[0] - centre[0]);
  let sweep = Math.atan2(to[1] - centre[1], to[0] - centre[0]) - start;
  if (sweep > Math.PI) sweep -= 2 * Math.PI;
  if (sweep < -Math.PI) sweep += 2 * Math.PI;
  const n = Math.max(2, Math.ceil(Math.abs(sweep) / (2 * Math.acos(1 - chordError / radius))));
  return Array.from({ length: n }, (_, i): Vec2 => {
    const a = start + (sweep * (i + 1)) / n;
    return i === n - 1 ? to : [centre[0] + radius * Math.cos(a), centre[1] + radius * Math.sin(a)];
  });
}

/** The range of the clip family and its corners; opening is what a bar of `bore - 0.2` mm asks of each side. */
export const clipProfiles: readonly ClipProfile[] = [
  { name: 'reference', bore: 1.8, slot: 0, mouth: 1.4, arm: 1.1, flare: 2.2, above: 4, shape: 'ring' },
  {
    name: 'reference on a post',
    bore: 1.8,
    slot: 0,
    mouth: 1.4,
    arm: 1.1,
    flare: 2.2,
    above: 2,
    shape: 'post',
  },
  {
    name: 'thin bar, wide mouth, thin arms',
    bore: 1,
    slot: 0,
    mouth: 0.78,
    arm: 0.6,
    flare: 1.2,
    above: 1,
    shape: 'ring',
  },
  {
    name: 'thin bar, narrow mouth, thin arms',
    bore: 1,
    slot: 0,
    mouth: 0.48,
    arm: 0.6,
    flare: 1.2,
    above: 2,
    shape: 'ring',
  },
  {
    name: 'thin bar, narrow mouth, thick arms',
    bore: 1,
    slot: 0,
    mouth: 0.48,
    arm: 3,
    flare: 2,
    above: 3,
    shape: 'block',
  },
  {
    name: 'thin bar, wide mouth, thick arms',
    bore: 1,
    slot: 0,
    mouth: 0.78,
    arm: 3,
    flare: 2,
    above: 2,
    shape: 'post',
  },
  {
    name: 'thick bar, narrow mouth, thin arms',
    bore: 4.2,
    slot: 0,
    mouth: 2.4,
    arm: 0.6,
    flare: 3.2,
    above: 1,
    shape: 'ring',
  },
  {
    name: 'thick bar, wide mouth, thin arms',
    bore: 4.2,
    slot: 0,
    mouth: 3.92,
    arm: 0.6,
    flare: 4.4,
    above: 2,
    shape: 'ring',
  },
  {
    name: 'thick bar, narrow mouth, thick arms',
    bore: 4.2,
    slot: 0,
    mouth: 2.4,
    arm: 3,
    flare: 4.4,
    above: 2,
    shape: 'block',
  },
  {
    name: 'thick bar, wide mouth, thick arms',
    bore: 4.2,
    slot: 0,
    mouth: 3.92,
    arm: 3,
    flare: 5,
    above: 4,
    shape: 'ring',
  },
  {
    name: 'long slot, thin arms',
    bore: 1.8,
    slot: 3,
    mouth: 1.2,
    arm: 0.6,
    flare: 2,
    above: 1.5,
    shape: 'ring',
  },
  {
    name: 'long narrow slot, thick arms',
    bore: 1,
    slot: 3,
    mouth: 0.6,
    arm: 3,
    flare: 2,
    above: 3,
    shape: 'block',
  },
  {
    name: 'wide slot on a post',
    bore: 4.2,
    slot: 1.5,
    mouth: 3,
    arm: 1.2,
    flare: 4,
    above: 2,
    shape: 'post',
  },
  {
    name: 'short slot in a block',
    bore: 2.2,
    slot: 1,
    mouth: 1.5,
    arm: 1.1,
    flare: 2.4,
    above: 1,
    shape: 'block',
  },
  {
    name: 'wide long slot, wide mouth, thin arms',
    bore: 4.2,
    slot: 3,
    mouth: 3.92,
    arm: 0.6,
    flare: 4.6,
    above: 2,
    shape: 'ring',
  },
  {
    name: 'block with a thin roof',
    bore: 2.2,
    slot: 0,
    mouth: 1.6,
    arm: 1.6,
    flare: 2.6,
    above: 0.8,
    shape: 'block',
  },
  {
    name: 'parallel mouth without a flare',
    bore: 2.2,
    slot: 0,
    mouth: 1.6,
    arm: 0.9,
    flare: 1.6,
    above: 2,
    shape: 'ring',
  },
];
