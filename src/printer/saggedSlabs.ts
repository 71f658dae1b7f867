import type { CrossSection, Scope } from '../solid/kernel.ts';
import { cleanReach } from './cleanReach.ts';
import { hangingArea } from './hangingArea.ts';
import { onHeightGrid } from './heightGrid.ts';
import { MITRE_LIMIT, RIPPLE } from './movedWalls.ts';
import type { PrinterProfile } from './types.ts';

/** A stretch of the print with one section from bottom to top. Heights above the bed, mm. */
export interface Slab {
  readonly low: number;
  readonly high: number;
  readonly section: CrossSection;
}

/** Layers that print alike, one on the other; `layer` is the height of the lowest of them as asked, mm. */
export interface PrintedRun extends Slab {
  readonly layer: number;
}

/** What sinks past the edge of a floor keeps this far under it, and what is lifted ends this far off the wall
 *  that holds it and is cut this far past its edge, mm: two areas that only just meet leave a gap or a skin of no width
 *  between them, which is no surface. */
const LAP = 1e-3;
/** Most of a run that may be missing under a roof that comes out high, as a share: some of it holds the rest up. */
const MOST_LIFTED = 0.5;

/** The print as it hangs: `runs` from the bed up, each on the one before, and under every area that nothing holds
 *  the material that sank out of it, `levelSag` deep. What sinks stops at the first floor below it and at the bed.
 *
 *  Inside and outside hang alike. The figure is known from roofs held on both sides; an edge held on one side only
 *  sinks at least as far, and supports are not taken for granted. A negative sag lifts the undersides instead.
 *  Sections are owned by the scope. */
export function saggedSlabs(
  scope: Scope,
  runs: readonly PrintedRun[],
  { levelSag, overhang }: Pick<PrinterProfile, 'levelSag' | 'overhang'>,
): Slab[] {
  const sag = onHeightGrid(levelSag.value);
  if (Math.abs(sag) < RIPPLE || overhang >= 90) return [...runs];
  const slabs: Slab[] = [];
  let sinking: readonly Sinking[] = [];
  for (let k = runs.length - 1; k >= 0; k--) {
    const run = runs[k]!;
    const below = runs[k - 1];
    slabs.push(...layered(scope, run, sinking).toReversed());
    sinking = stillSinking(scope, run, sinking);
    const hanging = below && hangingArea(scope, run.section, below.section, cleanReach(run.layer, overhang));
    if (!hanging) continue;
    if (sag > 0) sinking = [...sinking, { area: hanging, down: boundaryNear(runs, run.low - sag) }];
    else lift(scope, slabs, run, below, hanging, -sag);
  }
  return slabs.toReversed();
}

/** A height, or the boundary between two runs that it misses by less than a ripple. */
function boundaryNear(runs: readonly PrintedRun[], height: number): number {
  return runs.find(({ low }) => Math.abs(low - height) < RIPPLE)?.low ?? height;
}

/** Material on its way down: where, and how far it gets. */
interface Sinking {
  readonly area: CrossSection;
  readonly down: number;
}

/** One run with what sinks into it from above, in slabs from the bottom up. */
function layered(scope: Scope, run: PrintedRun, sinking: readonly Sinking[]): Slab[] {
  const levels = [...new Set([run.low, ...sinking.map(({ down }) => Math.max(down, run.low))])].sort(
    (a, b) => a - b,
  );
  return levels.map((low, k): Slab => {
    const here = sinking.filter(({ down }) => down <= low).map(({ area }) => area);
    return { low, high: levels[k + 1] ?? run.high, section: joined(scope, run.section, here) };
  });
}

/** What goes on sinking below a run: what the run's own material does not stop. */
function stillSinking(scope: Scope, run: PrintedRun, sinking: readonly Sinking[]): Sinking[] {
  return sinking.flatMap(({ area, down }) => {
    if (down >= run.low) return [];
    const floor = scope.keep(run.section.offset(-LAP, 'Miter', MITRE_LIMIT));
    const free = scope.keep(scope.keep(area.subtract(floor)).simplify(RIPPLE));
    return free.isEmpty() ? [] : [{ area: free, down }];
  });
}

/** Takes the underside of what hangs away, up to `by`. The last slabs of the list are those of the run, top first. */
function lift(
  scope: Scope,
  slabs: Slab[],
  { low, high }: PrintedRun,
  below: PrintedRun,
  hanging: CrossSection,
  by: number,
): void {
  const lowest = slabs.pop()!;
  const to = onHeightGrid(low + Math.min(by, MOST_LIFTED * (high - low)));
  const held = scope.keep(below.section.offset(LAP, 'Miter', MITRE_LIMIT));
  const past = scope.keep(hanging.offset(LAP, 'Miter', MITRE_LIMIT));
  const away = scope.keep(past.subtract(held));
  const left = scope.keep(scope.keep(lowest.section.subtract(away)).simplify(RIPPLE));
  slabs.push({ ...lowest, low: to }, { low, high: to, section: left });
}

function joined(scope: Scope, section: CrossSection, areas: readonly CrossSection[]): CrossSection {
  if (areas.length === 0) return section;
  return scope.keep(scope.keep(scope.kernel.CrossSection.union([section, ...areas])).simplify(RIPPLE));
}
