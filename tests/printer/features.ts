import type { Interface } from '../../src/family/interface.ts';
import { block, cylinder, prism } from '../../src/solid/primitives.ts';
import { rectangle, stadium } from '../../src/solid/profile.ts';
import { difference, type Shape, union } from '../../src/solid/shape.ts';
import type { Contour } from '../../src/solid/vector.ts';

const HOLLOWS = ['round bore', 'slot with round ends', 'rectangular slot', 'open pocket'] as const;
const SOLIDS = ['round post', 'rectangular post', 'rib'] as const;
export const FORMS = [...HOLLOWS, ...SOLIDS];

/** A feature to be drawn: its axis runs along z through the origin, its size is read along x. Lengths in mm. */
export interface FeatureSpec {
  readonly form: (typeof FORMS)[number];
  /** How much longer than wide, along y; no matter to round ones. */
  readonly longer: number;
  /** Extent along the axis. */
  readonly length: number;
  /** Material around hollows, or how far the plate that a post stands on reaches beyond it: towards -x, x, -y, y. */
  readonly around: readonly [number, number, number, number];
}

export const isHollow = ({ form }: FeatureSpec): boolean => HOLLOWS.some((hollow) => hollow === form);

/** Thickness of the plate a post stands on, mm. */
const PLATE = 3;

/** The feature in a body of its own, drawn `size` mm wide. A hollow goes all the way through along its axis; a post
 *  stands up from its plate. */
export function drawnFeature(spec: FeatureSpec, size: number): Shape {
  const { form, length } = spec;
  const [left, right, front, back] = spec.around;
  const overall = isRound(spec) ? size : lengthAcross(spec, size);
  const [u, v, h] = [size / 2, overall / 2, length / 2];
  if (!isHollow(spec)) {
    const plate = block([-u - left, -v - front, -h - PLATE], [u + right, v + back, -h]);
    const post =
      form === 'round post'
        ? cylinder({ axis: 'z', diameter: size, from: [0, 0, -h - 1], length: length + 1, sense: 'shaft' })
        : block([-u, -v, -h - 1], [u, v, h]);
    return union(plate, post);
  }
  const body = block([-u - left, -v - front, -h], [u + right, v + (form === 'open pocket' ? 0 : back), h]);
  switch (form) {
    case 'round bore':
      return difference(
        body,
        cylinder({ axis: 'z', diameter: size, from: [0, 0, -h - 1], length: length + 2, sense: 'bore' }),
      );
    case 'slot with round ends':
      return difference(
        body,
        prism('z', alongY(stadium(size, overall, [0, 0], { sense: 'bore' })), -h - 1, h + 1),
      );
    case 'open pocket':
      return difference(body, block([-u, -v, -h - 1], [u, v + 1, h + 1]));
    default:
      return difference(body, prism('z', rectangle([size, overall]), -h - 1, h + 1));
  }
}

/** A contour that was drawn along x, along y. */
const alongY = (contour: Contour): Contour => contour.map(([x, y]) => [-y, x]);

export const isRound = ({ form }: FeatureSpec): boolean => form === 'round bore' || form === 'round post';

const lengthAcross = ({ longer }: FeatureSpec, size: number): number => size + longer;

/** The feature as a family would declare it. */
export function declared(spec: FeatureSpec, drawn: number): Interface {
  const { form, length } = spec;
  const told = {
    ...{ id: 'it', name: form, host: 0, fit: 'sliding' as const, length },
    ...{ at: [0, 0, 0] as [number, number, number], axis: [0, 0, 1] as [number, number, number] },
    across: [1, 0, 0] as [number, number, number],
  };
  switch (form) {
    case 'round bore':
      return { ...told, kind: 'bore' };
    case 'slot with round ends':
    case 'rectangular slot':
    case 'open pocket':
      return { ...told, kind: 'slot', hydraulic: hydraulicOf(spec, drawn) };
    case 'rib':
      return { ...told, kind: 'rib' };
    case 'round post':
      return { ...told, kind: 'post', round: drawn };
    default:
      return { ...told, kind: 'post' };
  }
}

/** 4 A / P by its closed form; a pocket as if its mouth were a wall. */
function hydraulicOf(spec: FeatureSpec, width: number): number {
  const overall = lengthAcross(spec, width);
  if (spec.form !== 'slot with round ends') return (2 * width * overall) / (width + overall);
  const straight = overall - width;
  return (4 * (width * straight + (Math.PI * width ** 2) / 4)) / (2 * straight + Math.PI * width);
}
