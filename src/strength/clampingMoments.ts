import { Matrix, solve } from 'ml-matrix';
import { power } from '../arithmetic/power.ts';
import type { PlateLoad } from './plate.ts';
import type { MiddleBending } from './simplySupported.ts';

export interface Clamping extends MiddleBending {
  /** Moment at the middle of a long edge, N mm / mm; below 0, as it hogs. */
  readonly edgeMoment: number;
}

/** Edge moments that are kept along the short side; the long side has as many more as it is longer. */
const SHORT_TERMS = 30;

/** What the moments along the edges change that turn a simply supported rectangle `a` by `b` mm back to level all round, D = 1.
 *
 *  Timoshenko and Woinowsky-Krieger, section 44: moments E_m cos(m pi x / a) on the long edges and F_n cos(n pi y / b) on the short ones, m, n odd.
 *  Slopes of a mode at its own edges are -(tanh u + u sech^2 u) / (2 k), at the others -4 k l / (side (k^2 + l^2)^2) with the signs of the
 *  middle taken out; slopes of the load follow from reciprocity with the deflection that a mode gives under it. */
export function clampingMoments(a: number, b: number, load: PlateLoad): Clamping {
  const long = modes(a, b, Math.ceil((SHORT_TERMS * a) / b), load);
  const short = modes(b, a, SHORT_TERMS, load);
  // The long edges' moments are eliminated: their own slopes are a diagonal.
  const coupled = (k: number, l: number) => (k * l) / (k * k + l * l) ** 2;
  const matrix = Matrix.zeros(short.length, short.length);
  const right = short.map((f) => -f.load);
  for (const e of long) {
    const row = short.map((f) => (-4 / b) * coupled(e.k, f.k));
    const column = short.map((f) => (-4 / a) * coupled(e.k, f.k));
    for (const i of short.keys()) {
      right[i] = right[i]! + (row[i]! * e.load) / e.own;
      for (const j of short.keys()) {
        matrix.set(i, j, matrix.get(i, j) - (row[i]! * column[j]!) / e.own);
      }
    }
  }
  for (const [i, f] of short.entries()) matrix.set(i, i, matrix.get(i, i) + f.own);
  const F = solve(matrix, Matrix.columnVector(right)).to1DArray();
  const E = long.map(
    (e) => -(e.load + short.reduce((sum, f, j) => sum + (-4 / a) * coupled(e.k, f.k) * F[j]!, 0)) / e.own,
  );
  let [deflection, bendLong, bendShort, edgeMoment] = [0, 0, 0, 0];
  for (const [i, e] of long.entries()) {
    deflection += e.sign * E[i]! * e.middle;
    bendLong += e.sign * E[i]! * e.bendAlong;
    bendShort += e.sign * E[i]! * e.bendAcross;
    edgeMoment += e.sign * E[i]!;
  }
  for (const [i, f] of short.entries()) {
    deflection += f.sign * F[i]! * f.middle;
    bendShort += f.sign * F[i]! * f.bendAlong;
    bendLong += f.sign * F[i]! * f.bendAcross;
  }
  return { deflection, bendLong, bendShort, edgeMoment };
}

interface Mode {
  /** Wave number along its edge. */
  readonly k: number;
  /** Sign of the mode's slope at the other edges, 1 or -1 in turn. */
  readonly sign: number;
  /** Slope at its own edges for a moment of 1, and slope there from the load, divided by `sign`. */
  readonly own: number;
  readonly load: number;
  /** In the middle for a moment of 1: deflection, curvatures along its edge and across. */
  readonly middle: number;
  readonly bendAlong: number;
  readonly bendAcross: number;
}

/** Modes along edges `side` long that lie `apart`. */
function modes(side: number, apart: number, count: number, load: PlateLoad): Mode[] {
  return Array.from({ length: count }, (_, i) => {
    const m = 2 * i + 1;
    const sign = i % 2 === 0 ? 1 : -1;
    const k = (m * Math.PI) / side;
    const u = (k * apart) / 2;
    const t = Math.tanh(u);
    const sech = 1 / Math.cosh(u);
    const scale = sech / (2 * k * k);
    let slope: number;
    if (load.kind === 'uniform') {
      slope = ((2 * load.pressure) / (side * power(k, 4))) * (u * sech * sech - t);
    } else {
      const c = load.spread / 2;
      slope = (-sign * load.force * scale * (u * t - (k * k * c * c) / 4)) / side;
    }
    return {
      k,
      sign,
      own: -(t + u * sech * sech) / (2 * k),
      load: slope,
      middle: scale * u * t,
      bendAlong: scale * k * k * u * t,
      bendAcross: scale * k * k * (2 - u * t),
    };
  });
}
