import { type View, viewFrom } from '../../src/output/drawing/index.ts';
import { turn } from '../../src/solid/placement.ts';
import { add, type Placement, times, type Vec2, type Vec3 } from '../../src/solid/vector.ts';

/** From where the part is looked at, in parallel projection. */
export interface Camera {
  /** Radians from the front towards the right side. */
  readonly azimuth: number;
  /** Radians above the level, at most a quarter turn either way. */
  readonly elevation: number;
  /** 1 shows the whole part. */
  readonly zoom: number;
  /** What lies in the middle of the picture, right of and above the middle of the part; in radii of the part. */
  readonly pan: Vec2;
}

const QUARTER = Math.PI / 2;
const [LEAST, MOST] = [0.25, 40];
/** Farther from the part there is nothing to see, radii. */
const FARTHEST = 4;

/** Views that have a button. `round` shows front, right side and top alike (isometric, ISO 5456-3). */
export const namedViews = {
  front: { azimuth: 0, elevation: 0 },
  right: { azimuth: QUARTER, elevation: 0 },
  top: { azimuth: 0, elevation: QUARTER },
  round: { azimuth: Math.PI / 4, elevation: Math.atan(Math.SQRT1_2) },
} as const;
export type NamedView = keyof typeof namedViews;

/** The whole part, seen in the round. */
export const home: Camera = { ...namedViews.round, zoom: 1, pan: [0, 0] };

export const turned = (camera: Camera, azimuth: number, elevation: number): Camera => ({
  ...camera,
  azimuth: wrap(camera.azimuth + azimuth),
  elevation: Math.min(QUARTER, Math.max(-QUARTER, camera.elevation + elevation)),
});

/** Nearer for a factor above 1. `at`: what stays where it is, from the middle of the picture, in radii on it at zoom 1. */
export function zoomed(camera: Camera, factor: number, at: Readonly<Vec2> = [0, 0]): Camera {
  const zoom = Math.min(MOST, Math.max(LEAST, camera.zoom * factor));
  const moved = 1 / camera.zoom - 1 / zoom;
  return panned({ ...camera, zoom }, [at[0] * moved, at[1] * moved]);
}

/** Moves the middle of the picture, in radii of the part. */
export const panned = (camera: Camera, by: Readonly<Vec2>): Camera => ({
  ...camera,
  pan: [held(camera.pan[0] + by[0]), held(camera.pan[1] + by[1])],
});

const held = (value: number): number => Math.min(FARTHEST, Math.max(-FARTHEST, value));
const wrap = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

/** The view of a camera, as drawings have it. `frame` turns what stands upright in the picture back to the frame of the part. */
export function viewOfCamera({ azimuth, elevation }: Camera, frame: Placement): View {
  const [sin, cos] = [Math.sin(azimuth), Math.cos(azimuth)];
  const [up, level] = [Math.sin(elevation), Math.cos(elevation)];
  return {
    right: turn(frame, [cos, sin, 0]),
    up: turn(frame, [-up * sin, up * cos, level]),
    toward: turn(frame, [level * sin, -level * cos, up]),
  };
}

/** The camera that looks out of a direction; straight from above and below it keeps its azimuth. */
export function lookingFrom(camera: Camera, [x, y, z]: Readonly<Vec3>): Camera {
  const level = Math.hypot(x, y);
  return {
    ...camera,
    azimuth: level < 1e-6 ? camera.azimuth : Math.atan2(x, -y),
    elevation: Math.atan2(z, level),
  };
}

/** Part of the way from one camera to another, `share` 0 to 1, the short way round. */
export function between(from: Camera, to: Camera, share: number): Camera {
  const part = (a: number, b: number): number => a + share * (b - a);
  return {
    azimuth: wrap(from.azimuth + share * wrap(to.azimuth - from.azimuth)),
    elevation: part(from.elevation, to.elevation),
    zoom: from.zoom * (to.zoom / from.zoom) ** share,
    pan: [part(from.pan[0], to.pan[0]), part(from.pan[1], to.pan[1])],
  };
}

/** Step of a turn by a key or button, radians: an eighth of a right angle. */
const TURN = QUARTER / 6;
const ZOOM = 1.25;
const PAN = 0.15;

/** What a key does to the camera; null for keys that do nothing. Arrows turn, with shift they move, plus and minus zoom, Home
 *  shows the whole part again. */
export function cameraAfterKey(camera: Camera, key: string, shift: boolean): Camera | null {
  const way = arrows[key];
  if (way) {
    const [x, y] = way;
    return shift
      ? panned(camera, [(x * PAN) / camera.zoom, (y * PAN) / camera.zoom])
      : turned(camera, x * TURN, y * TURN);
  }
  if (key === '+' || key === '=') return zoomed(camera, ZOOM);
  if (key === '-' || key === '_') return zoomed(camera, 1 / ZOOM);
  return key === 'Home' ? home : null;
}

const arrows: Readonly<Record<string, readonly [number, number] | undefined>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Directions from which a spot may be looked at: faces, edges and corners of a cube around it. */
const around: readonly Vec3[] = [-1, 0, 1].flatMap((x) =>
  [-1, 0, 1].flatMap((y) => [-1, 0, 1].flatMap((z): Vec3[] => (x || y || z ? [[x, y, z]] : []))),
);

/** The direction from which a spot is seen best: with the least plastic before it (`plastic` says how much lies on the way
 *  out, mm), and of those alike the one nearest to `toward`, from where it is looked at now. */
export function bestSight(
  spot: Readonly<Vec3>,
  toward: Readonly<Vec3>,
  plastic: (from: Vec3, way: Vec3) => number,
): Vec3 {
  const ways = [
    [...toward] as Vec3,
    ...around.map((way) => viewFrom(way, way[0] || way[1] ? [0, 0, 1] : [0, 1, 0]).toward as Vec3),
  ];
  let [best, least] = [ways[0]!, Infinity];
  for (const way of ways) {
    const turned = 1 - (way[0] * toward[0] + way[1] * toward[1] + way[2] * toward[2]);
    // Turning right round is worth half a millimetre less plastic, so that the picture does not jump about for nothing.
    const cost = plastic([...spot], way) + 0.25 * turned;
    if (cost < least - 1e-9) [best, least] = [way, cost];
  }
  return best;
}

/** Middle of the picture in the frame of the part, mm. */
export const targetOf = ({ pan }: Camera, view: View, middle: Readonly<Vec3>, radius: number): Vec3 =>
  add(add(middle, times(view.right, pan[0] * radius)), times(view.up, pan[1] * radius));
