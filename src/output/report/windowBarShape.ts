import { formatNumber } from '../../units/index.ts';
import { decimal } from '../drawing/svg.ts';
import { clearanceWindow } from '../words/index.ts';

/** A clearance with its window, mm, as a bar shows it. */
export interface BarredFit {
  /** Expected, and its standard uncertainty. */
  readonly clearance: number;
  readonly u: number;
  /** Least and greatest; infinite where there is no such end. */
  readonly window: readonly [number, number];
}

/** Whether the expected clearance lies in its window with all of its doubt, itself only, or not at all. */
export type Standing = 'holds' | 'caution' | 'fails';

/** What a window bar is drawn of: SVG path data in a box of `width` by `height` units. */
export interface WindowBarShape {
  readonly width: number;
  readonly height: number;
  /** The bar in words. */
  readonly label: string;
  readonly standing: Standing;
  /** Too tight or too loose; empty text where that is not shown. */
  readonly hatches: readonly [string, string];
  /** The window itself. */
  readonly frame: string;
  /** No clearance at all; null where that lies beyond the bar. */
  readonly zero: string | null;
  /** Twice the standard uncertainty to either side. */
  readonly whisker: string;
  /** Where the mark stands. */
  readonly at: { readonly x: number; readonly y: number };
  /** Outline of the mark of a standing that wants looking at; null for the disc of one that holds, whose radius is below. */
  readonly sign: string | null;
  readonly disc: number;
}

/** Size of the bar in its own units. */
const [WIDTH, HEIGHT] = [132, 22];
const MIDDLE = HEIGHT / 2;
/** How much is shown past each end of a window, as a share of it: usually, and at most. */
const [BESIDE, MOST_BESIDE] = [0.6, 2];
/** Half as high as the window's frame, the whisker's ends, and half the size of the mark. */
const [FRAME, CAP, SIGN] = [8, 3.2, 4.4];
/** Between the lines that hatch what is too tight or too loose. */
const HATCH = 5;

/** A window's end is met by a clearance this close to it, mm: rounding of sums. */
const ROUNDING = 1e-6;

/** Whether the expected clearance lies in its window with all of its doubt, itself only, or not at all. */
export function standing({ clearance, u, window: [lo, hi] }: BarredFit): Standing {
  const within = (reach: number): boolean =>
    clearance - reach >= lo - ROUNDING && clearance + reach <= hi + ROUNDING;
  if (!within(0)) return 'fails';
  return within(2 * u) ? 'holds' : 'caution';
}

/** The shapes of a window bar: the frame is the window, hatched is too tight to its left and too loose to its right, the
 *  mark is the clearance expected with twice its standard uncertainty to either side, dashed no clearance at all. Disc: all
 *  of it inside; triangle: part of it; cross: the middle of it is outside. */
export function windowBarShape(fit: BarredFit): WindowBarShape {
  const { clearance, u, window } = fit;
  const [from, to] = shownRange(fit);
  const x = (mm: number): number => ((mm - from) / (to - from)) * WIDTH;
  const inside = (mm: number): number => Math.min(WIDTH - 1, Math.max(1, x(mm)));
  const [left, right] = [Math.max(0, x(window[0])), Math.min(WIDTH, x(window[1]))];
  const sure = standing(fit);
  const told = { holds: 'inside', caution: 'partly outside', fails: 'outside' }[sure];
  const label = `${formatNumber(clearance)} mm, give or take ${formatNumber(2 * u)}, ${told}; window ${clearanceWindow(window)} mm`;
  const [near, far, at] = [inside(clearance - 2 * u), inside(clearance + 2 * u), inside(clearance)];
  return {
    width: WIDTH,
    height: HEIGHT,
    label,
    standing: sure,
    hatches: [hatch(0, left), hatch(right, WIDTH)],
    frame: frame(left, right, window),
    zero: x(0) > 2 && x(0) < WIDTH - 2 ? `M${decimal(x(0))} 0V${HEIGHT}` : null,
    whisker: `M${decimal(near)} ${MIDDLE}H${decimal(far)}${cap(near)}${cap(far)}`,
    at: { x: at, y: MIDDLE },
    sign: sign(at, sure),
    disc: SIGN * 0.8,
  };
}

/** What clearances the bar spans, mm. */
function shownRange({ clearance, u, window: [lo, hi] }: BarredFit): readonly [number, number] {
  const [near, far] = [clearance - 2 * u, clearance + 2 * u];
  if (Number.isFinite(lo) && Number.isFinite(hi)) {
    const wide = hi - lo;
    const beside = (past: number) => wide * Math.min(MOST_BESIDE, Math.max(BESIDE, (1.1 * past) / wide));
    return [lo - beside(lo - near), hi + beside(far - hi)];
  }
  // With one end there is no width to go by: twice as far as the clearance and its doubt reach.
  const end = Number.isFinite(lo) ? lo : hi;
  const reach = Math.max(1.3 * Math.max(Math.abs(near - end), Math.abs(far - end)), 0.1);
  return [
    Number.isFinite(lo) && near >= lo ? end - reach / 3 : end - reach,
    Number.isFinite(hi) && far <= hi ? end + reach / 3 : end + reach,
  ];
}

/** Lines at 45 degrees between two places, as for what is cut away. */
function hatch(from: number, to: number): string {
  const [top, bottom] = [MIDDLE - FRAME, MIDDLE + FRAME];
  let d = '';
  for (let c = Math.ceil((from + top) / HATCH) * HATCH; c < to + bottom; c += HATCH) {
    const [high, low] = [Math.max(top, c - to), Math.min(bottom, c - from)];
    if (low > high) d += `M${decimal(c - high)} ${decimal(high)}L${decimal(c - low)} ${decimal(low)}`;
  }
  return d;
}

/** The window itself, open on the side that has no end. */
function frame(left: number, right: number, [lo, hi]: readonly [number, number]): string {
  const [top, bottom] = [MIDDLE - FRAME, MIDDLE + FRAME];
  const side = (x: number, end: number): string =>
    Number.isFinite(end) ? `M${decimal(x)} ${top}V${bottom}` : '';
  return `M${decimal(left)} ${top}H${decimal(right)}M${decimal(left)} ${bottom}H${decimal(right)}${side(left, lo)}${side(right, hi)}`;
}

const cap = (x: number): string => `M${decimal(x)} ${MIDDLE - CAP}V${MIDDLE + CAP}`;

function sign(x: number, sure: Standing): string | null {
  const at = (dx: number, dy: number): string => `${decimal(x + dx * SIGN)} ${decimal(MIDDLE + dy * SIGN)}`;
  if (sure === 'holds') return null;
  return sure === 'caution'
    ? `M${at(0, -1.1)}L${at(1.1, 0.9)}L${at(-1.1, 0.9)}Z`
    : `M${at(-1, -1)}L${at(1, 1)}M${at(1, -1)}L${at(-1, 1)}`;
}
