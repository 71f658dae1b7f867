import {
  anyHeight,
  type Corner,
  cornerHeights,
  corners,
  cylinder,
  type Drawn,
  type Feature,
  FOOT_SHOWN,
  type FootBody,
  family,
  footBody,
  footCup,
  footLay,
  footSizes,
  inRecess,
  leant,
  machineOnFeet,
  oneOf,
  type PadOutline,
  pushInStem,
  recessSolid,
  rimHeight,
  riserReadings,
  riserSizes,
  type Seen,
  screwReadings,
  screwSizes,
  screwUnderFoot,
  stanceOf,
  standingReadings,
  stemChoices,
  stemReadings,
  stemSizes,
  stemWell,
  stemWellWidth,
  stickOn,
  stickOnReadings,
  stickOnSizes,
  tiltAngle,
  type Values,
  type Vec3,
} from '../../src/family/index.ts';

type Chosen = Readonly<Record<string, string>>;
const kind = (name: string) => (c: Chosen) => c.kind === name;
const stuck = (shape: string) => (c: Chosen) => c.kind === 'stick-on' && c.shape === shape;
const feet = (which: string) => (c: Chosen) => c.kind !== 'riser' && c.feet === which;

const choices = {
  kind: oneOf(
    ...(['kind of foot', ['push-in', 'screw-on', 'stick-on', 'riser'], 'push-in'] as const),
    'Push-in clicks into a hole, screw-on takes the old screw, stick-on sits in a recess, a riser lifts the rear feet',
  ),
  shape: oneOf('outline', ['round', 'rectangular'], 'round', 'Seen from below'),
  feet: oneOf('feet', ['alike', 'each'], 'alike', 'One for any corner, or four, each with its own height'),
};

const readings = {
  ...stemReadings(kind('push-in')),
  ...screwReadings(kind('screw-on')),
  ...stickOnReadings(stuck('round'), stuck('rectangular')),
  ...{ ...anyHeight(feet('alike')), ...cornerHeights(feet('each')) },
  ...{ ...riserReadings(kind('riser')), ...standingReadings },
};

const sizes = {
  ...{ ...footSizes, ...stemChoices, ...screwSizes },
  ...{ ...stickOnSizes, ...riserSizes },
};

type CaseFoot = Values<keyof typeof readings, keyof typeof choices, keyof typeof sizes>;

/** Corner a foot is drawn at; a riser stands under a rear foot. */
const cornerOf = (d: CaseFoot): Corner => {
  const { corner = 'front left' } = d.choices as Chosen;
  return d.choices.kind === 'riser' ? 2 : ((corners as readonly string[]).indexOf(corner) as Corner);
};
const alike = (d: CaseFoot): boolean => feet('alike')(d.choices);
const heightsOf = (d: CaseFoot): number[] =>
  alike(d) ? Array(4).fill(d.height) : [d.frontLeft, d.frontRight, d.rearLeft, d.rearRight];
const lowestOf = (d: CaseFoot) => {
  const heights = heightsOf(d);
  const k = heights.indexOf(Math.min(...heights));
  const field = alike(d) ? 'height' : ['frontLeft', 'frontRight', 'rearLeft', 'rearRight'][k]!;
  return { height: heights[k]!, field };
};
const outline = (d: CaseFoot, width: number, long: number): PadOutline =>
  d.choices.shape === 'round'
    ? { kind: 'round', diameter: width }
    : { kind: 'rectangular', size: [width, long] };

/** The body of the foot, whatever holds it. */
function bodyOf(d: CaseFoot, drawn: Drawn): FootBody {
  const heights = d.choices.kind === 'riser' ? null : heightsOf(d);
  const stands = heights?.[cornerOf(d)] ?? d.rise;
  const [stance, corner] = [stanceOf(d), alike(d) ? null : cornerOf(d)];
  const { material, hardness } = d;
  const plain = { outline: outline(d, d.width, d.long), top: 0, asked: stands };
  const body = { ...plain, material, hardness, stance, corner, heights, drawn };
  switch (d.choices.kind) {
    case 'push-in': {
      const bore = { diameter: stemWellWidth(d, {}), toDesk: false };
      return { ...body, bore, hollow: stemWell(d, drawn) };
    }
    case 'screw-on':
      return { ...body, bore: { diameter: d.head, toDesk: true } };
    case 'stick-on': {
      const top = d.recessDepth - d.tape;
      return { ...body, outline: inRecess(recessOf(d), drawn), top, asked: stands + top };
    }
    default: {
      const bore = { diameter: d.footDiameter, toDesk: false };
      return { ...body, bore, above: rimHeight(cupOf(d)), within: 1 };
    }
  }
}

const recessOf = (d: CaseFoot): PadOutline =>
  outline(d, d.choices.shape === 'round' ? d.recessDiameter : d.recessWidth, d.recessLength);

/** A riser's cup. */
const cupOf = (d: CaseFoot) => ({
  ...{ foot: d.footDiameter, deep: d.cup, rise: d.rise, material: d.material },
  tilt: tiltAngle(Math.min(d.rise, 0.9 * d.apart), d.apart),
  base: d.choices.shape === 'round' ? d.width : d.long,
});

/** How the foot is held, and the machine around it. */
function held(d: CaseFoot, body: FootBody): Feature[] {
  const { stance, drawn } = body;
  const corner = cornerOf(d);
  const round = (diameter: number) =>
    cylinder({ axis: 'z', diameter, from: [0, 0, -1], length: 12, sense: 'bore' });
  const { outline: pad } = body;
  const diameter = pad.kind === 'round' ? pad.diameter : pad.size[0];
  const [seat, foot] = [[0, 0, 1] as Vec3, { diameter, height: body.asked - body.top }];
  const around = (seen: Omit<Seen, 'corner' | 'foot'> & Partial<Seen>): Feature =>
    machineOnFeet(d, { corner, foot, heights: alike(d) ? [d.height] : heightsOf(d), ...seen });
  switch (d.choices.kind) {
    case 'push-in': {
      const machine = { thick: d.wall, without: round(d.hole), seat, meets: ['stem', 'barb'] };
      return [pushInStem({ ...d, below: lowestOf(d).height }, drawn), around(machine)];
    }
    case 'screw-on':
      return [
        screwUnderFoot({ ...d, body, lowest: lowestOf(d) }),
        around({ thick: 3, without: round(d.screw + 0.2), seat }),
      ];
    case 'stick-on': {
      const [recess, deep, load] = [recessOf(d), d.recessDepth, Math.max(...stance.expected)];
      const meets = ['recess', 'recess.width', 'recess.length'];
      const machine = { thick: deep + 2, without: recessSolid(recess, deep), meets };
      return [stickOn({ recess, deep, tape: d.tape, load, body }), around(machine)];
    }
    default: {
      const { weight, expected } = stance;
      // Both risers are alike; one that hangs is held down by next to nothing.
      const load = Math.max(0.01 * weight, (expected[2]! + expected[3]!) / 2);
      const cup = { ...cupOf(d), load, weight, drawn };
      const old = { foot: { diameter: d.footDiameter, height: FOOT_SHOWN }, above: FOOT_SHOWN };
      return [footCup(cup), around({ thick: 2.5, heights: [], where: leant(cup.tilt), ...old })];
    }
  }
}

/** A foot under the corner of a desktop machine, or a riser under its rear feet.
 *  Frame: z = 0 is the case's underside (of a riser, the old foot's), z up into the case, x to the right and y to the
 *  back as the machine stands; the foot hangs to the desk. */
export default family({
  id: 'case-foot',
  title: 'Case foot',
  version: 1,
  summary:
    'stands under the corner of a machine: pushed into a hole, screwed on, stuck in a recess, or a riser',
  ...{ readings, choices, sizes },
  normalSizes: (d) => {
    const of = d as CaseFoot;
    const [hole, head] = [d.hole || 6, d.head || 7];
    const wide = { 'push-in': hole + 10, 'screw-on': head + 8, 'stick-on': 16, riser: d.footDiameter + 10 };
    const width = wide[d.choices.kind as keyof typeof wide];
    const long = Math.min(90, d.choices.kind === 'riser' ? width : 1.5 * width);
    const below = Math.min(...heightsOf(of)) || 4;
    const stem = stemSizes({ hole, wall: d.wall || 2, material: d.material, below });
    return { ...{ width, long, ...stem }, ...{ tape: 0.2, sink: 1.5, cup: 4, hardness: 95 } };
  },
  features: (d, drawn) => {
    const body = bodyOf(d, drawn);
    return [footBody(body), ...held(d, body)];
  },
  members: (d) =>
    feet('each')(d.choices)
      ? corners.map((name) => ({ id: name.replace(' ', '-'), name, choices: { corner: name } }))
      : [{ id: '', name: '', choices: {} }],
  lay: (d) => footLay(bodyOf(d, {})),
});
