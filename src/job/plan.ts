import type { PlannedInterface } from '../check/context.ts';
import type { Lay } from '../family/family.ts';
import type { Interface } from '../family/interface.ts';
import type { Drawn } from '../family/values.ts';
import { aimOf, windowOf } from '../fit/classes.ts';
import type { FitChance, FitLine, FitProblem, Window } from '../fit/types.ts';
import type { Contributor, Dimension } from '../measure/types.ts';
import { drawnSize, predictedSize } from '../printer/behaviour.ts';
import type { Measurand } from '../printer/measurand.ts';
import { SizeRefusal } from '../printer/sizeRefusal.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { Remembered } from '../remembered/remembered.ts';
import { lowest } from '../solid/lowest.ts';
import { inverse, turn } from '../solid/placement.ts';
import type { Shape } from '../solid/shape.ts';
import { formatLength } from '../units/index.ts';
import { chanceOnce } from './chanceOf.ts';
import {
  type CauseEffect,
  hostSensitivities,
  machineCauses,
  measurandOf,
  printCauses,
  senseOf,
} from './clearanceCauses.ts';
import { feltCause, feltLadder } from './feltLadder.ts';
import { type Heights, hangsOnHeight, heightsOf, sameHeights } from './heights.ts';
import type { Prepared } from './prepare.ts';
import { type Problem, Refused } from './problem.ts';
import { shapeOf } from './shapeOf.ts';
import { corrected, knowledge, type TrialKnowledge } from './trial/belief.ts';
import { withoutWords } from './withoutWords.ts';
import { shown } from './zodProblems.ts';

export { measurandOf };

/** What is decided before anything is built: drawn sizes, expected clearances, the chance. */
export interface Plan {
  readonly lay: Lay;
  readonly drawn: Drawn;
  /** Expected sizes off the printer, by interface. */
  readonly prints: Drawn;
  readonly interfaces: readonly PlannedInterface[];
  readonly problem: FitProblem;
  readonly chance: FitChance;
  /** The part as the family draws it at these sizes, in the frame of the part. */
  readonly shape: Shape;
  /** What the sizes measured upwards know of their height above the bed. */
  readonly heights: Heights;
}

/** Decides every drawn size so that the expected clearance is the middle of its window, and says how likely that is
 *  to come true. Throws `Refused` when the printer can make no such size. */
export const plan = (
  prepared: Prepared,
  known: Remembered = new Remembered(Number.POSITIVE_INFINITY),
): Plan => known.of('plan', withoutWords(prepared), () => planned(prepared, known));

function planned(prepared: Prepared, known: Remembered): Plan {
  const { settled, problem, shape, heights, ...sized } = sizedAndDrawn(prepared);
  const chance = chanceOnce(problem, known);
  const interfaces = settled.map((one, k): PlannedInterface => {
    const line = problem.lines[k]!;
    const variance = problem.contributors.reduce(
      (sum, { id, u }) => sum + ((line.sensitivity[id] ?? 0) * u) ** 2,
      line.spread ** 2,
    );
    return {
      ...one,
      drawn: sized.drawn[one.id]!,
      predicted: sized.prints[one.id]!,
      window: line.window,
      clearance: line.mean,
      u: Math.sqrt(variance),
      chance: chance.lines[one.id]!,
    };
  });
  return { ...sized, interfaces, problem, chance, shape, heights };
}

/** Times the part is drawn at most until nothing on it moves by a layer any more. */
const DRAWINGS = 8;

/** Sizes, and the part drawn with them. Where faces lie above the bed shows when the part is drawn, and may change what
 *  comes out in whole layers; mostly what was assumed is so, and it is drawn once. */
function sizedAndDrawn(prepared: Prepared): Sized & Pick<Plan, 'shape' | 'heights'> {
  let heights: Heights = {};
  for (let drawing = 1; ; drawing++) {
    const sized = sizesOf(prepared, heights);
    const { lay, drawn, settled } = sized;
    const shape = shapeOf(prepared, drawn);
    const matters = settled.some((one) => hangsOnHeight(one, lay));
    const bottom = matters ? lowest(shape, turn(inverse(lay.turn), [0, 0, 1])) : 0;
    const found = heightsOf(settled, drawn, lay, bottom);
    if (drawing === DRAWINGS || sameHeights(found, heights)) return { ...sized, shape, heights };
    heights = found;
  }
}

/** What may stand otherwise. */
export interface Change {
  readonly dimensions?: Readonly<Record<string, Dimension>>;
  readonly printer?: PrinterProfile;
}

/** The fit of a plan as it would stand with other dimensions or another printer, for weighing what to do next. */
export const fitWith = (
  prepared: Prepared,
  { heights }: Pick<Plan, 'heights'>,
  changed: Change,
): FitProblem => {
  // Another printer is one that has learnt nothing yet.
  const trials = prepared.job.trials?.map(({ learnt: _, ...record }) => record);
  const job = changed.printer && trials ? { ...prepared.job, trials } : prepared.job;
  return sizesOf({ ...prepared, ...changed, job }, heights).problem;
};

interface Sized extends Pick<Plan, 'lay' | 'drawn' | 'prints' | 'problem'> {
  /** Interfaces where the drawn sizes put them. */
  readonly settled: readonly Interface[];
}

/** Drawn sizes and the fit they lead to. Drawn sizes hang on each other through positions and the roundness of walls. */
function sizesOf(today: Prepared, heights: Heights): Sized {
  const learnt = knowledge(today, heights);
  // What trials say is counted from the profile as it was without them.
  const prepared = learnt ? { ...today, printer: learnt.printer } : today;
  const { family, values, printer, fits } = prepared;
  const lay = family.lay(values);
  const windowFor = ({ id, fit }: Interface) => windowOf(fits[id] ?? fit);
  const slopes = hostSensitivities(prepared);
  const clearanceFor = (one: Interface, size: number) =>
    clearanceOf(prepared, learnt, one, size, measurandOf(one, lay, printer, heights), slopes(one.id));
  const drawn = settledSizes(prepared, lay, heights, windowFor, learnt && clearanceFor);
  const settled = family.interfaces(values, drawn);
  const contributors = new Map<string, Contributor>();
  const lines: FitLine[] = [];
  const prints: Record<string, number> = {};
  for (const one of settled) {
    const { printed, mean, effects, unused } = clearanceFor(one, drawn[one.id]!);
    const sensitivity: Record<string, number> = {};
    for (const { cause } of unused) if (!contributors.has(cause.id)) contributors.set(cause.id, cause);
    for (const { cause, by } of effects) {
      // A shared cause acts on each size by its own u; the list keeps one, and the ratio goes to the line.
      const listed = contributors.get(cause.id) ?? cause;
      contributors.set(cause.id, listed);
      const scaled = listed.u === 0 ? 0 : (by * cause.u) / listed.u;
      sensitivity[cause.id] = (sensitivity[cause.id] ?? 0) + scaled;
    }
    prints[one.id] = printed;
    const dof = spreadDof(printer) ?? (learnt && UNMEASURED_DOF);
    const spread = { spread: printer.repeatability, spreadDof: dof };
    lines.push({ id: one.id, window: windowFor(one), ...spread, mean, sensitivity });
  }
  return { lay, drawn, prints, settled, problem: { lines, contributors: [...contributors.values()] } };
}

/** Size expected off the printer and clearance expected of it, mm, with the causes of the clearance's doubt. */
interface ExpectedClearance {
  readonly printed: number;
  readonly mean: number;
  readonly effects: readonly CauseEffect[];
  /** Causes that a verdict on a ladder has taken the place of. */
  readonly unused: readonly CauseEffect[];
}

/** The clearance by printer and readings, or by the ladder whose verdict takes their place, put right by what trials
 *  say of either. */
function clearanceOf(
  prepared: Prepared,
  learnt: TrialKnowledge | undefined,
  one: Interface,
  size: number,
  measurand: Measurand,
  slopes: readonly (readonly [string, number])[],
): ExpectedClearance {
  const sense = senseOf(one.kind);
  const predicted = predictedSize(size, measurand, prepared.printer);
  const print = printCauses(one, predicted, prepared);
  const reckoned = [...print, ...machineCauses(one, slopes, prepared)];
  const felt = feltLadder(prepared, one.id);
  const mean = felt ? felt.at(size) : sense * (predicted.value - one.host);
  const effects = felt ? [{ cause: feltCause(felt), by: 1 }] : reckoned;
  const unused = felt ? reckoned : [];
  if (!learnt) return { printed: predicted.value, mean, effects, unused };
  const now = corrected(learnt, effects);
  const printed = predicted.value + sense * corrected(learnt, print).shift;
  return { printed, mean: mean + now.shift, effects: now.effects, unused: [] };
}

/** Fewest degrees of freedom a spread is given: below, its standard deviation would be infinite. */
const FEWEST_DOF = 3;

/** Without a coupon a printer scatters by 0.015 to 0.04 (common practice, no source): a variance as uncertain as that of a
 *  Student law of so many degrees of freedom. It tells once trials have taken the printer's other doubts away. */
const UNMEASURED_DOF = 12;

/** How well the repeatability is known; nobody says so of a printer without a coupon. */
const spreadDof = ({ calibration }: PrinterProfile): number | undefined =>
  calibration && Math.max(FEWEST_DOF, Math.round(calibration.dof));

/** A fit that this printer cannot make: the job's own fit is to blame when it states one, otherwise the printer. */
function unreachable({ id, name, host }: Interface, target: number, { job, printer }: Prepared): Problem {
  const stated = Object.hasOwn(job.fits, id);
  return {
    code: 'size_not_reachable',
    field: stated ? `fits.${id}` : 'printer',
    value: shown(stated ? job.fits[id] : printer.name),
    allowed: `${stated ? 'a clearance window' : 'a printer'} that leaves a size above 0 mm to draw`,
    reason: `asks ${name} to print at ${formatLength(target)} on a machine of ${formatLength(host)}, which no drawn size gives`,
  };
}

/** Rounds taken at most, and the change that counts as none, mm. Printers as they are settle in five rounds; small bores
 *  on one that narrows them by half need fifty. */
const ROUNDS = 100;
const SETTLED = 1e-7;

/** Drawn sizes, by interface: those that change no more when they are worked out again with themselves in place. */
function settledSizes(
  prepared: Prepared,
  lay: Lay,
  heights: Heights,
  windowFor: (one: Interface) => Window,
  clearanceFor?: (one: Interface, size: number) => Pick<ExpectedClearance, 'mean'>,
): Drawn {
  const { family, values, printer } = prepared;
  let drawn: Drawn = {};
  for (let round = 0; round < ROUNDS; round++) {
    const problems: Problem[] = [];
    const next: Record<string, number> = {};
    for (const one of family.interfaces(values, drawn)) {
      const sense = senseOf(one.kind);
      const measurand = measurandOf(one, lay, printer, heights);
      const last = drawn[one.id];
      const known =
        last === undefined
          ? undefined
          : (clearanceFor?.(one, last).mean ?? feltLadder(prepared, one.id)?.at(last));
      // How much looser machine and print were found to be than printer and readings say.
      const looser =
        known === undefined ? 0 : known - sense * (predictedSize(last!, measurand, printer).value - one.host);
      const target = one.host + sense * (aimOf(windowFor(one)) - looser);
      try {
        next[one.id] = drawnSize(target, measurand, printer);
      } catch (error) {
        if (!(error instanceof SizeRefusal)) throw error;
        problems.push(unreachable(one, target, prepared));
      }
    }
    if (problems.length > 0) throw new Refused(problems);
    const change = Object.entries(next).map(([id, size]) => Math.abs(size - (drawn[id] ?? Infinity)));
    drawn = next;
    if (Math.max(...change) <= SETTLED) return drawn;
  }
  throw new Refused([
    {
      code: 'size_not_reachable',
      field: 'printer',
      value: shown(printer.name),
      allowed: 'a printer whose bores can be drawn for',
      reason: 'narrows bores this small so much that no drawn size settles',
    },
  ]);
}
