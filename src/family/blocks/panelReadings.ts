import type { Vec3 } from '../../solid/vector.ts';
import { astride, between } from '../callout.ts';
import { type Choices, oneOf } from '../choice.ts';
import { byRule, depth, inside, insideRound, outside } from '../reading.ts';
import type { PanelRecess } from './coverPlate.ts';
import {
  type OpeningForm,
  openingReach,
  type PanelRow,
  panelOpening,
  rowCentres,
  rowSpan,
} from './panelOpening.ts';

/** What a family that fills openings lets choose of panel and machine. */
export const panelChoices = () => ({
  opening: oneOf(
    'opening',
    ['rectangular', 'rounded', 'round', 'D', 'slotted'],
    'rectangular',
    'Rounded has corners of a radius, D is round with a flat at the top, slotted has round ends left and right',
  ),
  openings: oneOf(
    'openings',
    ['one', 'two', 'three'],
    'one',
    'Neighbours alike, side by side under one cover',
  ),
  sits: oneOf(
    'sits',
    ['proud', 'flush', 'recessed'],
    'proud',
    'On the panel, or in a recess around the opening: level with the panel, or deeper',
  ),
  near: oneOf(
    'nearest part',
    ['nothing', 'above', 'below', 'left', 'right'],
    'nothing',
    'Side of the opening on which something stands close behind the panel',
  ),
});

const isRound = (c: Choices): boolean => c.opening === 'round' || c.opening === 'D';

/** What it asks of an opening; the names of choices are those of `panelChoices`. */
const openingReadings = () => ({
  openingWidth: inside('opening width', {
    ...{ from: 4, to: 120, typical: 34, times: 5, when: (c) => !isRound(c) },
    tip: 'Small jaws between left and right edge, at half height; rock gently and take the largest',
  }),
  openingHeight: inside('opening height', {
    ...{ from: 4, to: 120, typical: 22, times: 5, when: (c) => !isRound(c) },
    tip: 'Small jaws between lower and upper edge, in the middle of the width',
  }),
  openingDiameter: insideRound('opening diameter', {
    ...{ from: 6, to: 80, typical: 26, times: 5, when: isRound },
    tip: 'Small jaws in the round opening; turn between readings and take each largest',
  }),
  openingFlat: inside('opening across the flat', {
    ...{ from: 4, to: 80, typical: 24, times: 5, when: (c) => c.opening === 'D' },
    tip: 'Small jaws from the middle of the flat to the far side of the round',
  }),
  cornerRadius: byRule('corner radius', {
    ...{ from: 0.3, to: 40, typical: 3, when: (c) => c.opening === 'rounded' },
    tip: 'Drill shanks or a radius gauge held into a corner; half a millimetre is near enough',
  }),
  panelThickness: outside('panel thickness', {
    ...{ from: 0.5, to: 8, typical: 2.5, times: 5 },
    tip: 'Large jaws over the edge of the opening, at five places all round it: how much it varies counts',
  }),
  pitch: outside('pitch of the openings', {
    ...{ from: 5, to: 130, typical: 42, times: 3, when: (c) => c.openings !== 'one' },
    tip: 'Left edge of one opening to the left edge of the next: read over both and take one width off',
  }),
});

/** What it asks of a recess around the openings. */
const recessReadings = () => ({
  recessWidth: inside('recess width', {
    ...{ from: 8, to: 170, typical: 62, when: (c) => c.sits !== 'proud' && c.openings === 'one' },
    tip: 'Small jaws between left and right wall of the recess around the opening',
  }),
  rowWidth: inside('recess width over all openings', {
    ...{ from: 12, to: 300, typical: 126, when: (c) => c.sits !== 'proud' && c.openings !== 'one' },
    tip: 'Small jaws between left and right wall of the recess around all openings',
  }),
  recessHeight: inside('recess height', {
    ...{ from: 8, to: 150, typical: 34, when: (c) => c.sits !== 'proud' },
    tip: 'Small jaws between lower and upper wall of the recess',
  }),
  recessDepth: depth('recess depth', {
    ...{ from: 0.8, to: 8, typical: 2.4, when: (c) => c.sits !== 'proud' },
    tip: 'Depth rod to the floor of the recess, beam flat on the face of the panel beside it',
  }),
});

/** What it asks of the room behind the panel. */
const behindReadings = () => ({
  roomBehind: depth('room behind the face', {
    ...{ from: 2, to: 250, typical: 25, times: 1 },
    tip: 'Depth rod through the opening to the first thing behind it, beam on the face the cover will rest on; all off',
  }),
  nearGap: byRule('gap beside the edge', {
    ...{ from: 0, to: 60, typical: 6, when: (c) => c.near !== 'nothing' },
    tip: 'Behind the panel, from the edge of the opening sideways to the nearest part on that side',
  }),
  nearDepth: byRule('face to the part beside', {
    ...{ from: 0.5, to: 100, typical: 6, when: (c) => c.near !== 'nothing' },
    tip: 'From the face the cover will rest on to the front of that part beside the opening',
  }),
});

/** What is asked of panel, recess and what lies behind; the names of choices are those of `panelChoices`. */
export const panelReadings = () => ({ ...openingReadings(), ...recessReadings(), ...behindReadings() });

type Told = Readonly<Record<keyof ReturnType<typeof panelReadings>, number>> & {
  readonly choices: Readonly<Record<keyof ReturnType<typeof panelChoices>, string>>;
};

/** The openings that readings and choices describe. */
export const panelRow = (d: Told): PanelRow => ({
  opening: panelOpening(d.choices.opening as OpeningForm, d),
  count: ['one', 'two', 'three'].indexOf(d.choices.openings) + 1,
  pitch: d.pitch,
});

/** The recess around them; null when there is none. */
export function panelRecess(d: Told): PanelRecess | null {
  const width = d.choices.openings === 'one' ? d.recessWidth : d.rowWidth;
  return d.choices.sits === 'proud' ? null : { width, height: d.recessHeight, depth: d.recessDepth };
}

/** Where the jaws go for all of these readings: openings about the origin, face the cover rests on at z = 0. */
export function panelCallouts(d: Told) {
  const [row, { near }] = [panelRow(d), d.choices];
  const t = d.panelThickness;
  const { low, high } = openingReach(row.opening);
  const middle = (low + high) / 2;
  const [right, end, face] = [
    rowCentres(row).at(-1)! + row.opening.width / 2,
    rowSpan(row) / 2,
    d.recessDepth || 0,
  ];
  // Of several alike the last is read.
  const x = rowCentres(row).at(-1)!;
  const sideways = near === 'left' || near === 'right';
  const out = near === 'left' || near === 'below' ? -1 : 1;
  const edge = sideways ? out * end : out === 1 ? high : low;
  const beside = (gap: number, z: number): Vec3 =>
    sideways ? [edge + out * gap, middle, z] : [x, edge + out * gap, z];
  return {
    openingWidth: astride('x', d.openingWidth, [x, middle, -t / 2]),
    openingHeight: astride('y', d.openingHeight, [x, middle, -t / 2]),
    openingDiameter: astride('x', d.openingDiameter, [x, 0, -t / 2]),
    openingFlat: astride('y', d.openingFlat, [x, middle, -t / 2]),
    cornerRadius: astride('x', d.cornerRadius, [right - d.cornerRadius / 2, high - d.cornerRadius, -t / 2]),
    panelThickness: between([right, middle, -t], [right, middle, 0]),
    pitch: astride('x', d.pitch, [x - row.opening.width / 2 - d.pitch / 2, low, -t / 2]),
    recessWidth: astride('x', d.recessWidth, [0, middle, face]),
    rowWidth: astride('x', d.rowWidth, [0, middle, face]),
    recessHeight: astride('y', d.recessHeight, [0, middle, face]),
    recessDepth: between([end + 2, middle, 0], [end + 2, middle, face]),
    roomBehind: between([x, middle, -d.roomBehind], [x, middle, 0]),
    nearGap: between(beside(0, -d.nearDepth), beside(d.nearGap, -d.nearDepth)),
    nearDepth: between(beside(d.nearGap, -d.nearDepth), beside(d.nearGap, 0)),
  };
}
