import { cylinder, hull, prism } from '../../solid/primitives.ts';
import { roundedRectangle } from '../../solid/profile.ts';
import { difference, type Shape } from '../../solid/shape.ts';
import type { Vec2 } from '../../solid/vector.ts';
import type { BlockOutline } from '../../strength/blockShape.ts';

/** What a foot looks like from below: round, or a rectangle with its corners rounded. mm. */
export type PadOutline =
  | { readonly kind: 'round'; readonly diameter: number }
  | { readonly kind: 'rectangular'; readonly size: Vec2 };

/** Chamfer of the edge on the desk, mm: a foot that is pushed along does not catch, and the spread of a first layer
 *  stays inside the outline. Smaller where the foot is thin. */
const CHAMFER = 0.6;
/** Corner radius of a rectangular foot, as a share of its shorter side, and the most, mm. */
const CORNER = { share: 0.25, most: 3 } as const;

interface PadSpan {
  /** Desk face and top, along z, mm. */
  readonly from: number;
  readonly to: number;
}

const chamferOf = ({ from, to }: PadSpan): number => Math.min(CHAMFER, (to - from) / 4);

const cornerOf = ([x, y]: Vec2): number => Math.min(CORNER.most, CORNER.share * Math.min(x, y));

/** A foot's body about the z axis with its desk edge chamfered by 45 degrees, less `hollow`, such as the well of a
 *  stem. Facets keep inside the outline, as of a shaft.
 *  @example footPad({ kind: 'round', diameter: 20 }, { from: -8, to: 0 }) */
export function footPad(outline: PadOutline, span: PadSpan, hollow: Shape | null = null): Shape {
  const { from, to } = span;
  const c = chamferOf(span);
  const body =
    outline.kind === 'round'
      ? hull(
          cylinder({
            ...{ axis: 'z', diameter: outline.diameter - 2 * c, endDiameter: outline.diameter },
            ...{ from: [0, 0, from], length: c, sense: 'shaft' },
          }),
          cylinder({
            ...{ axis: 'z', diameter: outline.diameter },
            ...{ from: [0, 0, from + c], length: to - from - c, sense: 'shaft' },
          }),
        )
      : hull(
          prism('z', rectangular(outline.size, c), from, to),
          prism('z', rectangular(outline.size, 0), from + c, to),
        );
  return hollow === null ? body : difference(body, hollow);
}

function rectangular(size: Vec2, less: number) {
  const radius = cornerOf(size);
  const inset: Vec2 = [size[0] - 2 * less, size[1] - 2 * less];
  return roundedRectangle(inset, Math.max(0.1, radius - less), [0, 0], { sense: 'shaft' });
}

/** The foot as a block under load, with a round `bore` through it, mm, 0 for none. Rounded corners and chamfer count
 *  as full, and a rectangle with a bore as the ring of its own area: both off by a few hundredths of what a foot gives
 *  way. */
export function padBlock(outline: PadOutline, bore = 0): BlockOutline {
  if (outline.kind === 'round')
    return bore > 0
      ? { kind: 'ring', diameter: outline.diameter, bore }
      : { kind: 'disc', diameter: outline.diameter };
  const [length, width] = outline.size;
  if (bore === 0) return { kind: 'rectangle', length, width };
  return { kind: 'ring', diameter: Math.sqrt((4 * length * width) / Math.PI), bore };
}

/** What of the foot touches the desk, mm^2: the desk face within its chamfer, less a bore that opens there. */
export function deskArea(outline: PadOutline, span: PadSpan, bore = 0): number {
  const c = chamferOf(span);
  const round = (diameter: number) => (Math.PI * diameter ** 2) / 4;
  if (outline.kind === 'round') return round(outline.diameter - 2 * c) - round(bore);
  const [x, y] = outline.size;
  const radius = Math.max(0.1, cornerOf(outline.size) - c);
  return (x - 2 * c) * (y - 2 * c) - (4 - Math.PI) * radius ** 2 - round(bore);
}

/** Smaller of the sizes across, mm: what a bore must leave a rim of. */
export const padWidth = (outline: PadOutline): number =>
  outline.kind === 'round' ? outline.diameter : Math.min(...outline.size);
