import type { Body, Point } from './solver.ts';

export const MODULUS = 1000;
export const POISSON = 0.35;
/** Of a plane body, mm; see the README beside this. */
const DEPTH = 0.02;

/** A straight arm that stands out of a deep block, seen from its side. Lengths mm. */
export interface PlaneArm {
  readonly kind: 'plane';
  readonly name: string;
  readonly length: number;
  readonly thickness: number;
  readonly tip: number;
  readonly fillet: number;
  /** How far a nose stands out of it where it is pushed; absent: none. */
  readonly nose?: number;
}

/** Half a ring, held at one end and pushed at the other towards its middle. Lengths mm. */
export interface CurvedArm {
  readonly kind: 'curved';
  readonly name: string;
  readonly inner: number;
  readonly outer: number;
}

/** A spring arm on the back of a cover's plate, with the plug around it, as the family draws them. Two arms bend towards each
 *  other, so a quarter stands for all. Lengths mm. */
export interface CoverArm {
  readonly kind: 'cover';
  readonly name: string;
  /** From the back of the plate to the middle of the crest. */
  readonly lever: number;
  readonly arm: number;
  readonly width: number;
  readonly lean: number;
  readonly opening: readonly [number, number];
  readonly overlap: number;
  readonly plate: number;
  /** Depth of the plug's wall, 1.6 mm thick; 0 without a plug. */
  readonly plug: number;
}

/** One of four legs of a split stem on a deep body. Lengths mm. */
export interface StemLeg {
  readonly kind: 'stem';
  readonly name: string;
  readonly diameter: number;
  readonly bore: number;
  readonly slot: number;
  readonly length: number;
}

export type Arm = PlaneArm | CurvedArm | CoverArm | StemLeg;

const plane = (name: string, slender: number, ratio: number, fillet: number): PlaneArm => ({
  ...{ kind: 'plane', name, thickness: 2, length: 2 * slender, tip: 2 * ratio, fillet: 2 * fillet },
});
const curved = (name: string, inner: number, outer: number): CurvedArm => ({
  kind: 'curved',
  name,
  inner,
  outer,
});
const cover = (name: string, of: Omit<CoverArm, 'kind' | 'name'>): CoverArm => ({
  kind: 'cover',
  name,
  ...of,
});
const stem = (name: string, of: Omit<StemLeg, 'kind' | 'name'>): StemLeg => ({ kind: 'stem', name, ...of });

/** Arms over the range that families draw: short and long, thick and thin, tapered, with fillets. */
export const arms: readonly Arm[] = [
  plane('short, sharp fillet', 2, 1, 0.1),
  plane('short, large fillet', 3, 1, 0.7),
  plane('usual', 5, 1, 0.2),
  plane('usual, tapered to half', 5, 0.5, 0.2),
  plane('long', 10, 1, 0.2),
  plane('long, tapered to half', 10, 0.5, 0.4),
  plane('long, tapered to a quarter', 12, 0.25, 0.2),
  { ...plane('hook, short', 3, 1, 0.2), nose: 1 },
  { ...plane('hook, long', 8, 1, 0.2), nose: 2 },
  curved('curved, thick', 1, 2),
  curved('curved, usual', 0.9, 1.7),
  curved('curved, thin', 2, 2.6),
  cover('demo of the cover', {
    lever: 7,
    arm: 1.2,
    width: 10,
    lean: 0.09,
    opening: [38, 21],
    overlap: 2.5,
    plate: 2,
    plug: 2.5,
  }),
  cover('short thick arm', {
    lever: 4,
    arm: 1.2,
    width: 6,
    lean: 0.2,
    opening: [30, 16],
    overlap: 2.5,
    plate: 2,
    plug: 1.6,
  }),
  cover('thin plate', {
    lever: 6,
    arm: 1.05,
    width: 5,
    lean: 0.12,
    opening: [34, 22],
    overlap: 2.5,
    plate: 1,
    plug: 2,
  }),
  cover('thick plate, long arm', {
    lever: 9,
    arm: 0.9,
    width: 4,
    lean: 0.08,
    opening: [40, 24],
    overlap: 4,
    plate: 4,
    plug: 3,
  }),
  cover('wide low opening', {
    lever: 6.5,
    arm: 1.2,
    width: 10,
    lean: 0.12,
    opening: [60, 14],
    overlap: 2.5,
    plate: 2,
    plug: 2,
  }),
  cover('narrow arm, tall opening', {
    lever: 6,
    arm: 1.2,
    width: 3,
    lean: 0.12,
    opening: [40, 50],
    overlap: 2.5,
    plate: 2,
    plug: 2,
  }),
  cover('thin plate, tall opening', {
    ...{ lever: 6, arm: 1.2, width: 8, lean: 0.12, opening: [60, 50], overlap: 2.5, plate: 1, plug: 2 },
  }),
  stem('solid legs, short', { diameter: 6.3, bore: 0, slot: 1.2, length: 4.5 }),
  stem('solid legs, long', { diameter: 6.3, bore: 0, slot: 1.2, length: 9 }),
  stem('thin legs', { diameter: 6.3, bore: 3.7, slot: 1, length: 6 }),
  stem('thin legs, wide stem', { diameter: 10, bore: 7.4, slot: 1.2, length: 10 }),
  stem('thin short legs', { diameter: 8, bore: 5.4, slot: 1, length: 4 }),
  stem('small stem', { diameter: 4, bore: 0, slot: 0.9, length: 4 }),
];

/** Along the tension side, where the bending strain is that of a beam: from the root to the load, distances from the root and
 *  what is read there. */
export interface Line {
  readonly from: Point;
  readonly way: Point;
  readonly length: number;
  /** How far from the line nodes may lie, mm. */
  readonly within: number;
}

export interface Posed {
  readonly body: Body;
  /** Where the strain is read, and on the other side where that is stated too. */
  readonly line: Line;
  readonly inner?: Line;
  /** Thickness in bending, for how near to root and load a beam is one. */
  readonly thickness: number;
}

const EPS = 1e-6;

export function posed(arm: Arm, fineness: number): Posed {
  switch (arm.kind) {
    case 'plane':
      return planeArm(arm, fineness);
    case 'curved':
      return curvedArm(arm, fineness);
    case 'cover':
      return coverArm(arm, fineness);
    case 'stem':
      return stemLeg(arm, fineness);
  }
}

const MESH = [
  'Mesh.MeshSizeExtendFromBoundary = 0; Mesh.MeshSizeFromPoints = 0; Mesh.MeshSizeFromCurvature = 0;',
  'Mesh.ElementOrder = 2; Mesh.SecondOrderLinear = 1; Mesh.Optimize = 1;',
];

/** Height of the crest and of its lead in, mm, as the family draws them. */
const CREST = 0.4;
const WALL = 1.6;
const BESIDE = 0.6;

/** Outline of a nose with its crest at `length`, flanks at 45 degrees. */
const hooked = (h: number, length: number, nose: number): [number, number][] => [
  [h, length - CREST / 2 - nose],
  [h + nose, length - CREST / 2],
  [h + nose, length + CREST / 2],
  [h, length + CREST / 2 + nose],
];

/** y up the arm, its root face y = 0, from x = 0 to the thickness; pushed towards -x at the top, so that x = thickness is in
 *  tension. The block reaches five thicknesses to each side and down. */
function planeArm({ length, thickness: h, tip, fillet: r, nose = 0 }: PlaneArm, fineness: number): Posed {
  const out = 10 * h;
  const fine = (r > 0 ? Math.min(r / 2, h / 6) : h / 10) * fineness;
  const points: [number, number][] = [
    [-out, -out],
    [h + out, -out],
    [h + out, 0],
    [h + r, 0],
    [h, r],
    ...(nose > 0 ? hooked(h, length, nose) : ([[h, length]] as [number, number][])),
    [h - tip, nose > 0 ? length + CREST / 2 + nose : length],
    [0, r],
    [-r, 0],
    [-out, 0],
  ];
  const lines = points.map(([x, y], k) => `Point(${k + 1}) = {${x}, ${y}, 0};`);
  lines.push(`Point(50) = {${h + r}, ${r}, 0};`, `Point(51) = {${-r}, ${r}, 0};`);
  const last = points.length - 2;
  const curves = points.map((_, k) => {
    const [a, b] = [k + 1, ((k + 1) % points.length) + 1];
    if (a === 4) return `Circle(${a}) = {${a}, 50, ${b}};`;
    if (a === last) return `Circle(${a}) = {${a}, 51, ${b}};`;
    return `Line(${a}) = {${a}, ${b}};`;
  });
  const geometry = [
    ...lines,
    ...curves,
    `Curve Loop(1) = {${points.map((_, k) => k + 1).join(', ')}}; Plane Surface(1) = {1}; Physical Surface("body") = {1};`,
    `Field[1] = Distance; Field[1].CurvesList = {4, ${last}}; Field[1].NumPointsPerCurve = 60;`,
    `Field[2] = MathEval; Field[2].F = "Min(${(h / 8) * fineness} + 0.08*F1 + 0.15*Max(0, -y), ${h})";`,
    `Field[3] = MathEval; Field[3].F = "${fine} + 0.15*F1";`,
    'Field[4] = Min; Field[4].FieldsList = {2, 3}; Background Field = 4;',
    ...MESH,
  ].join('\n');
  return {
    thickness: h,
    line: { from: [h, 0, 0], way: [0, 1, 0], length, within: 0.02 * h },
    body: {
      ...{
        geometry: `${geometry}\n`,
        dimension: 2,
        modulus: MODULUS,
        poisson: POISSON,
        depth: DEPTH,
        way: [-1, 0, 0],
      },
      held: [{ where: ([x, y]) => y < -out + EPS || x < -out + EPS || x > h + out - EPS, along: [1, 2] }],
      loaded: ([x, y]) => (nose > 0 ? x > h + nose - EPS && y > 1 : y > length - EPS),
    },
  };
}

/** The ring about the origin above y = 0; its end at x > 0 is pushed towards -x, so that it closes. */
function curvedArm({ inner: a, outer: b }: CurvedArm, fineness: number): Posed {
  const h = b - a;
  const geometry = [
    `Point(1) = {${a}, 0, 0}; Point(2) = {${b}, 0, 0}; Point(3) = {0, ${b}, 0}; Point(4) = {${-b}, 0, 0};`,
    `Point(5) = {${-a}, 0, 0}; Point(6) = {0, ${a}, 0}; Point(7) = {0, 0, 0};`,
    'Line(1) = {1, 2}; Circle(2) = {2, 7, 3}; Circle(3) = {3, 7, 4}; Line(4) = {4, 5};',
    'Circle(5) = {5, 7, 6}; Circle(6) = {6, 7, 1};',
    'Curve Loop(1) = {1, 2, 3, 4, 5, 6}; Plane Surface(1) = {1}; Physical Surface("body") = {1};',
    `Field[1] = MathEval; Field[1].F = "${(h / 8) * fineness}"; Background Field = 1;`,
    ...MESH.map((line) => line.replace('SecondOrderLinear = 1', 'SecondOrderLinear = 0')),
  ].join('\n');
  return {
    thickness: h,
    // Closing stretches the outside of the crown.
    line: { from: [0, b, 0], way: [1, 0, 0], length: 0, within: 0.02 * h },
    body: {
      ...{ geometry: `${geometry}\n`, dimension: 2, modulus: MODULUS, poisson: POISSON, depth: DEPTH },
      way: [-1, 0, 0],
      held: [{ where: ([x, y]) => y < EPS && x < 0, along: [1, 2] }],
      loaded: ([x, y]) => y < EPS && x > 0,
    },
  };
}

/** Frame of the cover: back of the plate z = 0, the arm hangs to -z; x along the edge, y across the opening. */
function coverArm(arm: CoverArm, fineness: number): Posed {
  const { lever, lean, width, plate, plug, overlap } = arm;
  const h = arm.arm;
  const [X, Y] = [arm.opening[0] / 2, arm.opening[1] / 2];
  // The crest stands the bite past the edge; the foot of the arm as far inside as it leans.
  const top = lever - CREST / 2;
  const crest = Y + 0.5;
  const root = crest - lean * top;
  const end = lever + CREST / 2;
  const contour: [number, number][] = [
    [root, 0],
    [crest, -top],
    [crest, -end],
    [crest - h, -end],
    [crest - h, -top],
    [root - h, 0],
  ];
  const ids = contour.map((_, k) => 100 + k);
  const bay = width / 2 + BESIDE;
  const hollow = plug > 0 && X - WALL > bay && Y - WALL > 0;
  const geometry = [
    'SetFactory("OpenCASCADE");',
    `Box(1) = {0, 0, 0, ${X + overlap}, ${Y + overlap}, ${plate}};`,
    ...contour.map(([y, z], k) => `Point(${ids[k]}) = {0, ${y}, ${z}};`),
    ...contour.map((_, k) => `Line(${200 + k}) = {${ids[k]}, ${ids[(k + 1) % ids.length]}};`),
    `Curve Loop(300) = {${contour.map((_, k) => 200 + k).join(', ')}}; Plane Surface(300) = {300};`,
    `out[] = Extrude {${width / 2}, 0, 0} { Surface{300}; };`,
    ...(hollow
      ? [
          `Box(20) = {0, 0, ${-plug}, ${X - 0.1}, ${Y - 0.1}, ${plug}};`,
          `Box(21) = {-1, -1, ${-plug - 1}, ${X - 0.1 - WALL + 1}, ${Y - 0.1 - WALL + 1}, ${plug + 1}};`,
          `Box(22) = {-1, -1, ${-plug - 1}, ${bay + 1}, ${Y + 5}, ${plug + 1}};`,
          'ring[] = BooleanDifference{ Volume{20}; Delete; }{ Volume{21, 22}; Delete; };',
          'whole[] = BooleanUnion{ Volume{1}; Delete; }{ Volume{out[1]}; Volume{ring[]}; Delete; };',
        ]
      : ['whole[] = BooleanUnion{ Volume{1}; Delete; }{ Volume{out[1]}; Delete; };']),
    'Physical Volume("body") = {whole[]};',
    'Field[1] = MathEval;',
    `Field[1].F = "Min(${(h / 3) * fineness} + 0.35*Max(0, Max(x - ${width / 2}, Max(z - ${plate * 0.3}, Fabs(y - ${root - h / 2}) - ${h}))), ${2.2 * fineness + 0.6})";`,
    'Background Field = 1;',
    ...MESH,
    'Mesh.Algorithm3D = 1;',
  ].join('\n');
  return {
    thickness: h,
    // Pushed inwards, the outer face is in tension.
    line: {
      from: [0, root, 0],
      way: [0, lean / Math.hypot(1, lean), -1 / Math.hypot(1, lean)],
      length: lever,
      within: 0.02 * h,
    },
    body: {
      ...{
        geometry: `${geometry}\n`,
        dimension: 3,
        modulus: MODULUS,
        poisson: POISSON,
        depth: 1,
        way: [0, -1, 0],
      },
      held: [
        { where: ([x]) => Math.abs(x) < EPS, along: [1] },
        { where: ([, y]) => Math.abs(y) < EPS, along: [2] },
        // Thumbs over the arms keep the plate where it is.
        { where: ([x, y, z]) => z > plate - EPS && x < 3 && Math.abs(y - root) < 1.5, along: [3] },
      ],
      loaded: ([, y, z]) => Math.abs(y - crest) < EPS && z < -top + EPS && z > -end - EPS,
    },
  };
}

/** The quarter of a split stem between the middles of two slots, x = 0 and y = 0; its leg points along x = y. All legs are
 *  pressed in alike, so that the body below is cut where nothing crosses. */
function stemLeg({ diameter, bore, slot, length }: StemLeg, fineness: number): Posed {
  const [R, r, s] = [diameter / 2, bore / 2, slot / 2];
  const base = 1.6 * diameter;
  // The leg's thickness along x = y: from its inner corner or the bore to the outer face.
  const h = R - Math.max(r, s * Math.SQRT2);
  const geometry = [
    'SetFactory("OpenCASCADE");',
    `Cylinder(1) = {0, 0, ${-base}, 0, 0, ${base}, ${base}, Pi/2};`,
    `Cylinder(2) = {0, 0, 0, 0, 0, ${length}, ${R}, Pi/2};`,
    `Box(3) = {${s}, ${s}, -1, ${R}, ${R}, ${length + 2}};`,
    'leg[] = BooleanIntersection{ Volume{2}; Delete; }{ Volume{3}; Delete; };',
    ...(r > 0
      ? [
          `Cylinder(4) = {0, 0, -1, 0, 0, ${length + 2}, ${r}};`,
          'leg[] = BooleanDifference{ Volume{leg[]}; Delete; }{ Volume{4}; Delete; };',
        ]
      : []),
    'whole[] = BooleanUnion{ Volume{1}; Delete; }{ Volume{leg[]}; Delete; };',
    'Physical Volume("body") = {whole[]};',
    'Field[1] = MathEval;',
    `Field[1].F = "Min(${(h / 3) * fineness} + 0.3*Max(0, Max(-z - ${h / 2}, Sqrt(x*x + y*y) - ${R})), ${base / 4})";`,
    'Background Field = 1;',
    ...MESH,
    'Mesh.Algorithm3D = 1;',
  ].join('\n');
  const d = Math.SQRT1_2;
  const edge = r > s * Math.SQRT2 ? ([s, Math.sqrt(r * r - s * s)] as const) : ([s, s] as const);
  return {
    thickness: h,
    line: { from: [R * d, R * d, 0], way: [0, 0, 1], length, within: 0.13 * R },
    // The innermost edge: where the slots' faces meet, or where one runs into the bore.
    inner: { from: [edge[0], edge[1], 0], way: [0, 0, 1], length, within: 0.02 * R },
    body: {
      ...{
        geometry: `${geometry}\n`,
        dimension: 3,
        modulus: MODULUS,
        poisson: POISSON,
        depth: 1,
        way: [-d, -d, 0],
      },
      held: [
        { where: ([x]) => Math.abs(x) < EPS, along: [1] },
        { where: ([, y]) => Math.abs(y) < EPS, along: [2] },
        { where: ([, , z]) => z < -base + EPS, along: [3] },
      ],
      loaded: ([, , z]) => z > length - EPS,
    },
  };
}
