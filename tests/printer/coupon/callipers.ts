import type { CouponFeature } from '../../../src/printer/coupon/feature.ts';
import type { Manifold, Scope } from '../../../src/solid/kernel.ts';
import { cross, type Vec3 } from '../../../src/solid/vector.ts';

// Usual 150 mm callipers, rounded up: jaws 3 mm thick and 4 mm wide near their tips, 40 mm long; blades of the small
// jaws ground to 0.3 mm lands; rod 2 mm thick; beam 3.5 x 16 mm. Common practice, no source.
const OUTSIDE = { thick: 3, wide: 4, long: 30, beyond: 0.8 } as const;
const INSIDE = { land: 0.3, deep: 2.5, long: 25 } as const;
const ROD = { thick: 2 } as const;
const BEAM = { thick: 3.5, wide: 8, long: 30 } as const;
/** Jaws are held this far off the walls, mm, or rounding would count as a clash. */
const OFF = 0.02;

/** Ways to come to a feature: from above, front, left, right. */
export const approaches: readonly Vec3[] = [
  [0, 0, 1],
  [0, -1, 0],
  [-1, 0, 0],
  [1, 0, 0],
];

/** Callipers at a feature, coming from `approach`, as blocks; null where that is not square to what is measured. */
export function callipersAt(scope: Scope, feature: CouponFeature, approach: Vec3): Manifold | null {
  const along: Vec3 = [...feature.measurand.direction];
  if (feature.reading.jaw === 'depth') return rodAt(scope, feature);
  if (Math.abs(along[0] * approach[0] + along[1] * approach[1] + along[2] * approach[2]) > 1e-9) return null;
  const side = cross(approach, along);
  const [a, b] = feature.callout;
  if (feature.reading.jaw === 'outside') {
    const { thick, wide, long, beyond } = OUTSIDE;
    return scope.keep(
      scope.kernel.Manifold.union([
        bar(scope, a, [along, -wide, -OFF], [side, -thick / 2, thick / 2], [approach, -beyond, long]),
        bar(scope, b, [along, OFF, wide], [side, -thick / 2, thick / 2], [approach, -beyond, long]),
      ]),
    );
  }
  const { land, deep, long } = INSIDE;
  const size = feature.nominal;
  // Corners of a flat land touch the round wall first.
  const chord = feature.reading.round ? Math.sqrt(size ** 2 - land ** 2) : size;
  const short = (size - chord) / 2 + OFF;
  const half = deep / 2;
  return bar(scope, a, [along, short, size - short], [side, -land / 2, land / 2], [approach, -half, long]);
}

/** Depth rod from the far end of the callout, where the beam's end sits, to the near one. */
function rodAt(scope: Scope, { callout: [a, b], measurand, nominal }: CouponFeature): Manifold {
  const along: Vec3 = [...measurand.direction];
  const upright = along[2] === 1;
  // Level, the rod lies over the plate and the broad side of the beam stands upright; upright, the beam reaches over
  // the tower to the left of the rod.
  const broad: Vec3 = upright ? [1, 0, 0] : [0, 0, 1];
  const side = cross(broad, along);
  const { thick } = ROD;
  const reach = upright ? [-BEAM.wide, thick / 2] : [-BEAM.wide, BEAM.wide];
  return scope.keep(
    scope.kernel.Manifold.union([
      bar(scope, a, [along, OFF, nominal], [side, -thick / 2, thick / 2], [broad, -thick / 2, thick / 2]),
      bar(
        scope,
        b,
        [along, OFF, BEAM.long],
        [side, -BEAM.thick / 2, BEAM.thick / 2],
        [broad, reach[0]!, reach[1]!],
      ),
    ]),
  );
}

type Extent = readonly [Readonly<Vec3>, number, number];

/** Block about a point, with its extents along three directions square to each other. */
function bar(scope: Scope, at: Vec3, ...extents: readonly [Extent, Extent, Extent]): Manifold {
  const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((k): Vec3 => {
    const p: Vec3 = [...at];
    extents.forEach(([direction, from, to], axis) => {
      const by = (k >> axis) & 1 ? to : from;
      for (const c of [0, 1, 2] as const) p[c] += by * direction[c];
    });
    return p;
  });
  return scope.keep(scope.kernel.Manifold.hull(corners));
}
