import {
  barReading,
  depth,
  oneOf,
  ratio,
  roomReadings,
  size,
  socketChoices,
  socketReadings,
  socketSizes,
  swingReadings,
  type Values,
} from '../../src/family/index.ts';

const [across, along] = ['the way the bar slides', 'along the end of the bar'];

export const readings = {
  ...barReading,
  ...socketReadings(across, along),
  farSide: depth('underside to far side of the bar', {
    ...{ from: 2, to: 30, typical: 6.6, times: 5 },
    tip: 'Key level and up: depth rod from the underside beside the socket to the far side of the bar; or on a surviving clip, shoulder to the far side of the bore with the bar in it',
  }),
  ...roomReadings('the walls under the keycap', across, along),
  ...swingReadings('the clip'),
  restHeight: depth('rest height', {
    ...{ from: 4, to: 40, typical: 13 },
    tip: 'Underside of the keycap to the plate, key up',
  }),
  travel: depth('travel', {
    ...{ from: 0.5, to: 8, typical: 3.8 },
    tip: 'How far the key goes down: top of the keycap to the plate, key up and key down, one less the other',
  }),
};

export const choices = {
  ...socketChoices('the keycap'),
  guide: oneOf(
    'guide',
    ['slot', 'bore'],
    'slot',
    'A slot lets the bar slide over the travel; a round bore only where it hardly slides',
  ),
  mouth: oneOf('mouth', ['open', 'closed'], 'open', 'The bar snaps in from below, or its end is threaded in'),
  lay: oneOf(
    'lay',
    ['side', 'upright'],
    'side',
    'On its side the arms bend along the layers and are strong; upright they bend across them',
  ),
};

export const sizes = {
  arm: size('arm', { from: 0.6, to: 3, tip: 'Thickness of plastic around the bar' }),
  mouthShare: ratio('mouth share', {
    ...{ from: 0.6, to: 0.98 },
    tip: 'Printed mouth over bar diameter: less holds harder and strains more',
  }),
  shoulder: size('shoulder', {
    ...{ from: 0.3, to: 4 },
    tip: 'How far the shoulder stands beyond the post, each side',
  }),
  ...socketSizes,
};

/** What the functions of the declaration are given, mm. */
export type Clip = Values<keyof typeof readings, keyof typeof choices, keyof typeof sizes>;
