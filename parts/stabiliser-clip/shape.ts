import {
  block,
  bore,
  type Contour,
  chordError,
  cylinder,
  type Drawn,
  difference,
  facets,
  hull,
  hydraulicDiameter,
  type Interface,
  intersection,
  type Load,
  post,
  prism,
  rib,
  type Shape,
  slot,
  stadium,
  step,
  union,
  type Vec2,
} from '../../src/family/index.ts';
import { type Clip, dropOf, flareAngle, layout, slideOf } from './clip.ts';

const points = (n: number, at: (k: number) => Vec2): Vec2[] => Array.from({ length: n }, (_, k) => at(k));

/** Outline of shoulder and body in (y, z): straight down from the shoulder, round below the slot. */
function outline(d: Clip, drawn: Drawn): Contour {
  const { left, right, head, middle, half, drop, outer } = layout(d, drawn);
  // The arms bend as thick as they are drawn, so their outside is held as true as the bore.
  const steps = facets(2 * outer, chordError.interface) / 4;
  const round = (side: 1 | -1, from: number): Vec2[] =>
    points(steps + 1, (k) => {
      const angle = from + (Math.PI / 2) * (k / steps);
      return [middle + side * (half - outer) + outer * Math.cos(angle), -drop + outer * Math.sin(angle)];
    });
  const sameLine = half - outer < 1e-9 ? 1 : 0;
  const ring: Contour = [
    [right, 0],
    [left, 0],
    [left, -head],
    [middle - half, -head],
    ...round(-1, Math.PI),
    ...round(1, 1.5 * Math.PI).slice(sameLine),
    [middle + half, -head],
    [right, -head],
  ];
  return ring.filter((p, k) => Math.hypot(p[0] - ring.at(k - 1)![0], p[1] - ring.at(k - 1)![1]) > 1e-9);
}

/** The gap the bar snaps through, with its flare, in (y, z). */
function mouthContour(d: Clip, drawn: Drawn): Contour {
  const { mouth, middle, drop, outer, flare } = layout(d, drawn);
  const bottom = -drop - outer;
  const open = mouth / 2 + (flare + 1) * Math.tan(flareAngle);
  return [
    [middle - open, bottom - 1],
    [middle + open, bottom - 1],
    [middle + mouth / 2, bottom + flare],
    [middle + mouth / 2, -drop],
    [middle - mouth / 2, -drop],
    [middle - mouth / 2, bottom + flare],
  ];
}

/** Crush ribs stand on a core that clears the socket by this much, mm, both sides together; only their crests touch. */
export const ribHeights = 0.5;

function postShape(d: Clip, drawn: Drawn): Shape {
  const { round, postWidth, depth, head } = layout(d, drawn);
  const [foot, tip, x] = [-head / 2, d.postLength, depth / 2];
  const neck = tip - d.leadIn;
  const core = d.choices.ribs === 'crush' ? postWidth - ribHeights : postWidth;
  const y = core / 2;
  const rounded = (): Shape => {
    const shaft = { axis: 'z', diameter: core, sense: 'shaft' } as const;
    // One convex solid: a shaft and a chamfer that only touch would stay two, a rounding error apart.
    const whole = hull(
      cylinder({ ...shaft, from: [0, 0, foot], length: neck - foot }),
      cylinder({ ...shaft, endDiameter: core - 2 * d.leadIn, from: [0, 0, neck], length: d.leadIn }),
    );
    return intersection(whole, block([-x, -core, foot], [x, core, tip]));
  };
  const body = round
    ? rounded()
    : hull(
        block([-x, -y, foot], [x, y, neck]),
        block([-x + d.leadIn, -y + d.leadIn, foot], [x - d.leadIn, y - d.leadIn, tip]),
      );
  if (core === postWidth) return body;
  const ridge = (side: 1 | -1): Contour => {
    // Flat for longer than a layer is high: on its side the clip would print a sharp crest by chance only.
    const crest: Contour = [
      [-0.5, side * (y - 0.2)],
      [0.5, side * (y - 0.2)],
      [0.2, (side * postWidth) / 2],
      [-0.2, (side * postWidth) / 2],
    ];
    return side === 1 ? crest : crest.reverse();
  };
  return union(body, prism('z', ridge(1), foot, neck), prism('z', ridge(-1), foot, neck));
}

export function shape(d: Clip, drawn: Drawn): Shape {
  const { depth, width, overall, middle, drop, mouth } = layout(d, drawn);
  const hollow = prism('x', stadium(width, overall, [middle, -drop], { sense: 'bore' }), -depth, depth);
  const gap = mouth > 0 ? [prism('x', mouthContour(d, drawn), -depth, depth)] : [];
  return difference(
    union(prism('x', outline(d, drawn), -depth / 2, depth / 2), postShape(d, drawn)),
    hollow,
    ...gap,
  );
}

export function interfaces(d: Clip, drawn: Drawn): Interface[] {
  const { slotted, depth, drop, middle, round, lip, overall, width, outer, flare } = layout(d, drawn);
  const centre = { at: [0, middle, -drop], axis: [1, 0, 0], length: depth } as const;
  const socket = {
    at: [0, 0, (d.postLength - d.leadIn) / 2],
    axis: [0, 0, 1],
    length: d.postLength - d.leadIn,
  } as const;
  const hydraulic = hydraulicDiameter(width, overall);
  const held = d.choices.ribs === 'crush' ? rib : post;
  const grip = {
    lo: (d.mouthShare - 0.065 - 1) * d.barDiameter,
    hi: (d.mouthShare + 0.065 - 1) * d.barDiameter,
  };
  const list: Interface[] = [
    held('socket.width', {
      ...socket,
      at: [...socket.at],
      axis: [...socket.axis],
      across: [0, 1, 0],
      name: 'post in socket, width',
      host: round ? d.socketDiameter : d.socketWidth,
      fit: held === rib ? 'press' : 'snug',
      ...(round && held === post && { round: drawn['socket.width'] ?? d.socketDiameter }),
    }),
  ];
  if (!round) {
    // The width holds the clip; the length only locates it, and comes in whole layers when laid on its side.
    list.push(
      post('socket.length', {
        ...socket,
        at: [...socket.at],
        axis: [...socket.axis],
        across: [1, 0, 0],
        name: 'post in socket, length',
        host: d.socketLength,
        fit: { lo: 0.02, hi: 0.45 },
      }),
    );
  }
  const across: [number, number, number] = [0, 0, 1];
  const at: [number, number, number] = [...centre.at];
  const axis: [number, number, number] = [...centre.axis];
  list.push(
    (slotted ? slot : bore)('bar', {
      at,
      axis,
      length: depth,
      across,
      name: slotted ? 'bar in slot' : 'bar in bore',
      host: d.barDiameter,
      fit: 'sliding',
      ...(slotted && { hydraulic }),
    }),
    step('drop', {
      at,
      axis,
      length: depth,
      across,
      name: 'underside to bar',
      host: dropOf(d),
      fit: { lo: -0.15, hi: 0.15 },
      hollow: 'bar',
    }),
  );
  if (slotted) {
    list.push(
      slot('bar.run', {
        at,
        axis,
        length: depth,
        across: [0, 1, 0],
        name: 'run of the bar',
        host: d.barDiameter + slideOf(d).range,
        fit: { lo: 0.2, hi: 1 },
        hydraulic,
        round: width,
      }),
    );
  }
  if (d.choices.mouth === 'open') {
    const flank = (lip + outer - flare) / 2;
    list.push(
      slot('mouth', {
        at: [0, middle, -drop - flank],
        axis,
        length: depth,
        across: [0, 1, 0],
        name: 'mouth on bar',
        host: d.barDiameter,
        fit: grip,
        hydraulic,
      }),
    );
  }
  return list;
}

export function loads(d: Clip, drawn: Drawn): Load[] {
  const { mouth, middle, drop, lip, flare, depth } = layout(d, drawn);
  if (mouth === 0) return [];
  return [
    {
      kind: 'mouth',
      id: 'mouth',
      name: 'mouth of the clip',
      interface: 'bar',
      bar: d.barDiameter,
      at: [0, middle, -drop],
      normal: [1, 0, 0],
      inward: [0, 0, 1],
      lips: [
        [-mouth / 2, -lip],
        [mouth / 2, -lip],
      ],
      flare: flareAngle,
      entry: mouth + 2 * flare * Math.tan(flareAngle),
      heldFrom: drop,
      depth,
    },
  ];
}
