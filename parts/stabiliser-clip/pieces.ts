import {
  barHollow,
  type Drawn,
  type Feature,
  groundPlate,
  hangingBody,
  roomAround,
  type Swing,
  seatAround,
  snapMouth,
  socketPost,
  swing,
  swingingBar,
} from '../../src/family/index.ts';
import type { Clip } from './readings.ts';

/** From the keycap's underside to the middle of the bar: what differs between sister machines. */
export const dropOf = (d: Clip): number => d.farSide - d.barDiameter / 2;

/** How the bar's end moves while the key goes down. */
export const swingOf = (d: Clip): Swing =>
  swing({ reach: d.reach, rise: d.restHeight - dropOf(d) - d.hingeHeight, travel: d.travel });

/** The pieces of a clip, and their list in the order in which part and machine are told of. */
export function piecesOf(d: Clip, drawn: Drawn) {
  const slotted = d.choices.guide === 'slot';
  const movement = swingOf(d);
  const drop = dropOf(d);
  const post = socketPost({
    ...{ ...d, drawn, id: 'socket', name: 'socket in the keycap', plastic: 'ABS' },
    ...{ round: d.choices.post === 'round', ribs: d.choices.ribs === 'crush' },
    ...{ flats: d.choices.lay === 'side', root: () => body.head / 2 },
  });
  const { deep } = post;
  const hollow = barHollow({
    ...{ id: 'bar', name: 'bar', bar: d.barDiameter, slide: slotted ? movement.slide : null, deep, drawn },
    drop: { id: 'drop', name: 'underside to bar', host: drop },
  });
  const body = hangingBody({ hollow, arm: d.arm, shoulder: post.width / 2 + d.shoulder });
  const mouth = snapMouth({ ...d, id: 'mouth', name: 'mouth of the clip', hollow, drawn });
  const bar = swingingBar({
    ...{ ...d, id: 'bar', name: 'bar', swing: movement, ground: 'plate', meets: ['bar.run', 'mouth'] },
    ...{ words: { moves: 'key', part: 'clip' }, hollow: { id: 'bar', slotted, deep, drop } },
  });
  const features: Feature[] = [
    bar,
    body,
    post,
    seatAround({
      ...{ id: 'rim', name: 'underside of the keycap', post },
      across: [d.roomAlong, body.right - body.left],
    }),
    roomAround({
      ...{ ...d, id: 'room', name: 'walls under the keycap', deep, sides: [body.left, body.right] },
      part: { name: 'clip', remedy: 'thinner arms or a smaller shoulder would help' },
    }),
    groundPlate({ id: 'plate', name: 'plate', below: d.restHeight, span: [-d.reach - 6, 8] }),
    hollow,
    ...(d.choices.mouth === 'open' ? [mouth] : []),
  ];
  return { post, body, mouth, bar, features };
}
