import type { Family } from '../src/family/index.ts';
import caseFoot from './case-foot/index.ts';
import socketCover from './socket-cover/index.ts';
import spacer from './spacer/index.ts';
import stabiliserClip from './stabiliser-clip/index.ts';

/** Every part family, in the order of the list. One more is one more folder and one more line here. */
export const families: readonly Family[] = [stabiliserClip, caseFoot, socketCover, spacer];
