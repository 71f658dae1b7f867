import { type Choices, oneOf, size } from '../choice.ts';
import { depth, inside, insideRound, outside } from '../reading.ts';

const rectangular = (c: Choices): boolean => c.post === 'rectangular';

/** What `socketPost` asks of the socket; the choice `post` says whether it is round. The words end the tips: which way the
 *  width lies, and which way the length: "the way the bar slides", "along the end of the bar". */
export const socketReadings = (width: string, length: string) => ({
  socketWidth: inside('socket width', {
    ...{ from: 1.5, to: 12, typical: 4, times: 5, when: rectangular },
    tip: `Small jaws across the socket, ${width}; rock gently and take the largest`,
  }),
  socketLength: inside('socket length', {
    ...{ from: 1.5, to: 12, typical: 4.4, when: rectangular },
    tip: `Small jaws across the socket, ${length}`,
  }),
  socketDiameter: insideRound('socket diameter', {
    ...{ from: 2, to: 12, typical: 4, times: 5, when: (c) => c.post === 'round' },
    tip: 'Small jaws in the socket; turn between readings and take each largest',
  }),
  socketDepth: depth('socket depth', {
    ...{ from: 1.5, to: 15, typical: 4.5 },
    tip: 'Depth rod to the floor of the socket, beam flat on its rim',
  }),
  socketWall: outside('socket wall', {
    ...{ from: 0.4, to: 5, typical: 1.2, times: 2 },
    tip: 'Large jaws over the wall of the socket at its rim, thinnest place',
  }),
});

/** How a post in a socket may be built; `where` is what the socket is in: "the keycap". */
export const socketChoices = (where: string) => ({
  post: oneOf('post', ['rectangular', 'round'], 'rectangular', `What the socket in ${where} looks like`),
  ribs: oneOf(
    'crush ribs',
    ['none', 'crush'],
    'none',
    'Small ridges on the post that give way, for a socket whose width is doubtful',
  ),
});

/** Sizes of a post in a socket, mm. */
export const socketSizes = {
  postLength: size('post length', { from: 1, to: 14, tip: 'How far the post goes into the socket' }),
  leadIn: size('lead-in', { from: 0.2, to: 2, tip: 'Chamfer at the tip of the post' }),
};

/** What those sizes are when nothing is said: a post that stops short of the floor. */
export const normalPost = (d: { readonly socketDepth: number }) => ({
  postLength: d.socketDepth - 0.4,
  leadIn: 0.4,
});
