import { between, family, formatLength as mm, normalPost, sane, up } from '../../src/family/index.ts';
import { dropOf, piecesOf } from './pieces.ts';
import { type Clip, choices, readings, sizes } from './readings.ts';

function rules(d: Clip) {
  const [drop, { body }] = [dropOf(d), piecesOf(d, {})];
  const [tall, clear] = [drop + body.outer, d.restHeight - d.travel];
  return [
    sane(
      drop > d.barDiameter / 2 + 0.8,
      'farSide',
      `leaves no plastic between bar and keycap: the bar's middle must lie at least its radius and 0.80 mm below the underside (it lies ${mm(drop)} below)`,
    ),
    sane(
      d.travel < d.restHeight,
      'travel',
      `must be shorter than the rest height, or the keycap would pass through the plate (travel ${mm(d.travel)}, rest height ${mm(d.restHeight)})`,
    ),
    sane(
      tall < clear,
      'restHeight',
      `leaves no room for the clip above the plate with the key down: clip ${mm(tall)} tall, room ${mm(clear)}; check far side of the bar, rest height and travel`,
    ),
  ];
}

/** Two orders of putting it in: which is gentler hangs on mouth and socket. */
function assembly(d: Clip) {
  const { post, mouth, bar } = piecesOf(d, {});
  const open = d.choices.mouth === 'open';
  return [
    {
      id: 'keycap-first',
      name: 'clips in the keycap first, then the bar',
      steps: [
        post.press('Push each clip into its socket with a flat thumb until the shoulder meets the underside'),
        open
          ? mouth.snap('Hold the clip, bring the bar to the mouth and press it in until it clicks', false)
          : bar.thread(
              'Slide the bar sideways and thread its end into the clip',
              post.wall,
              'in the machine',
            ),
      ],
    },
    {
      id: 'bar-first',
      name: 'clips on the bar first, then the keycap',
      steps: [
        open
          ? mouth.snap('Snap each clip onto the bar in your hand', true)
          : bar.thread('Thread each clip onto the end of the bar, off the keycap', post.wall, 'loose'),
        {
          kind: 'place',
          sentence: 'Stand the clips upright, posts to the sky, and lower the keycap over them',
        } as const,
        post.press('Press the keycap down over each post in turn, never one side all the way first'),
      ],
    },
  ];
}

/** The clip that plugs under one end of a wide key and carries the end of its levelling bar.
 *  Frame: origin on the keycap's underside, middle of the socket; z up into the keycap, x along the bar's end,
 *  y the way the bar's end slides while the key travels, away from its hinge. */
export default family({
  id: 'stabiliser-clip',
  title: 'Stabiliser clip',
  version: 1,
  summary:
    'carries one end of the wire bar that keeps a wide key level; plugs into a socket under the keycap',
  ...{ readings, choices, sizes, rules, assembly },
  normalSizes: (d) => ({ arm: 1.1, mouthShare: 0.88, shoulder: 1, ...normalPost(d) }),
  callouts: (d) => {
    const { left, right } = piecesOf(d, {}).body;
    return {
      restHeight: between([0, right, 0], [0, right, -d.restHeight]),
      travel: between([0, left, 0], [0, left, -d.travel]),
    };
  },
  features: (d, drawn) => piecesOf(d, drawn).features,
  cautions: () => [
    'Unplug the keyboard before you open it; if it shares a case with a picture tube, leave the case to somebody qualified: the tube holds a charge long after it is switched off',
    'Old keycaps are brittle: what does not go in by thumb is too large, and force only moves the crack to the part nobody sells',
  ],
  lay: (d) =>
    d.choices.lay === 'side'
      ? { name: 'on its side, bar upright', turn: up.x }
      : { name: 'upright, post down', turn: up['-z'] },
});
