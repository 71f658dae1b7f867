import { depth, inside, outside } from '../reading.ts';

/** The bare wire of a bar that a part carries. */
export const barReading = {
  barDiameter: outside('bar diameter', {
    ...{ from: 0.8, to: 4, typical: 1.6, times: 5 },
    // Usual diameters of drawn spring wire; common practice, no source.
    nominals: [1, 1.2, 1.4, 1.5, 1.6, 1.8, 2, 2.2, 2.5, 3],
    tip: 'Large jaws across the bare wire near its end, where it is neither bent nor dented; a quarter turn between readings',
  }),
};

/** What `swingingBar` asks of a bar that is hinged to a plate; `part` is what carries its end: "the clip". */
export const swingReadings = (part: string) => ({
  engagement: outside('end of the bar', {
    ...{ from: 1, to: 20, typical: 5, times: 2 },
    tip: `Length of the straight end of the bar that lies in ${part}, tip to bend`,
  }),
  axialRoom: inside('free room along the bar', {
    ...{ from: 0, to: 60, typical: 3, times: 1 },
    tip: 'How far the bar can be moved along its end, in the machine, before it strikes something',
  }),
  reach: outside('reach of the bar', {
    ...{ from: 4, to: 60, typical: 14 },
    tip: 'Middle of the bar’s end to the middle of its hinge length: read over both wires and take one wire off',
  }),
  hingeHeight: depth('hinge height', {
    ...{ from: 0.2, to: 20, typical: 1.5 },
    tip: 'Plate to the middle of the hinge length: depth rod to the plate from the wire’s top, less half a wire',
  }),
});
