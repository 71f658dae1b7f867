import { cross, dot, lengthOf, subtract, unit, type Vec3 } from '../../solid/vector.ts';
import { type View, type ViewName, viewFrom, viewOf } from '../drawing/index.ts';
import type { NumberedLength } from './numberedReadings.ts';

/** A view and the readings dimensioned in it. */
export interface DimensionedView {
  readonly title: string;
  readonly view: View;
  readonly readings: readonly NumberedLength[];
}

const principal: readonly (readonly [ViewName, string])[] = [
  ['front', 'from the front'],
  ['right', 'from the right'],
  ['top', 'from above'],
];

/** A length is seen in full when it leans out of the paper by less than this, as the sine of the angle: it then
 *  shows short by less than 0.01 %. */
const LEAN = 0.01;

/** Fewest views, front before right before top, in which each reading is seen at full length. A reading that leans in all
 *  three gets a view of its own, square to it. Readings without a callout are left out. */
export function chooseViews(readings: readonly NumberedLength[]): DimensionedView[] {
  const left = new Map(readings.flatMap((reading) => (reading.callout ? [[reading, spanOf(reading)]] : [])));
  const chosen: DimensionedView[] = [];
  while (left.size > 0) {
    const seen = principal.map(([name, title]) => ({
      title,
      view: viewOf(name),
      readings: [...left].filter(([, span]) => isFull(viewOf(name), span)).map(([reading]) => reading),
    }));
    const best = seen.reduce((a, b) => (b.readings.length > a.readings.length ? b : a));
    const [first] = left;
    const next = best.readings.length > 0 ? best : squareTo(first![0], first![1]);
    chosen.push(next);
    for (const reading of next.readings) left.delete(reading);
  }
  return chosen;
}

function spanOf({ callout }: NumberedLength): Vec3 {
  return unit(subtract(callout![1], callout![0]));
}

const isFull = (view: View, span: Vec3): boolean => Math.abs(dot(view.toward, span)) < LEAN;

function squareTo(reading: NumberedLength, span: Vec3): DimensionedView {
  const front = viewOf('front').toward;
  const out = cross(span, cross(front, span));
  // Lying along the front's line of sight means the top sees it in full, so `out` is never the zero vector here.
  const toward = unit(out);
  const upright: Vec3 = lengthOf(cross(toward, [0, 0, 1])) > 1e-6 ? [0, 0, 1] : [0, 1, 0];
  return { title: `square to ${reading.number}`, view: viewFrom(toward, upright), readings: [reading] };
}
