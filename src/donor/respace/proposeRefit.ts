import { type ManifoldToplevel, withScope } from '../../solid/kernel.ts';
import type { Vec3 } from '../../solid/vector.ts';
import { formatNumber } from '../../units/index.ts';
import { type AxisFrame, axisFrame } from '../spans/axisFrame.ts';
import { mirrorIn } from '../spans/mirrorLevel.ts';
import { type PlainSpan, type PlainSpanOptions, REST, spansIn } from '../spans/plainSpans.ts';
import type { DonorMesh } from '../types.ts';
import { cutAndRejoin } from './cutAndRejoin.ts';
import { featureChanges, type NamedFeature } from './featureChange.ts';
import { levelMap, type TakeUp } from './levelMap.ts';
import { likelyCuts } from './likelyCuts.ts';
import { likelyStretches } from './likelyStretches.ts';
import type { CutChoice, RefitChoice, SpacedChoice } from './refitChoice.ts';
import { respace } from './respace.ts';
import { RespaceRefusal } from './respaceRefusal.ts';
import { mirroredRooms, type Room, roomsOf, takeUpsIn } from './rooms.ts';

/** One change that somebody wants. */
export interface WantedChange {
  /** Need not be a unit vector. */
  readonly axis: Readonly<Vec3>;
  /** Longer by, or shorter when below 0; not 0. */
  readonly by: number;
}

export interface RefitOptions extends PlainSpanOptions {
  /** Bores and posts by name, to tell what happens to them and to prefer what leaves them alone. */
  readonly features?: readonly NamedFeature[];
  /** False to let a symmetric donor lose its mirror plane; true by default. */
  readonly keepSymmetry?: boolean;
  /** Lays sections over each other for the cuts; without it no cut is among the choices. */
  readonly kernel?: ManifoldToplevel;
}

/** What can be done about a wanted change. */
export interface RefitProposal {
  readonly axis: Readonly<Vec3>;
  readonly by: number;
  readonly mirror: number | null;
  /** All plain spans along the axis. */
  readonly spans: readonly PlainSpan[];
  /** True when the first choice leaves no trace and keeps what symmetry there is: it can be taken without asking. */
  readonly exact: boolean;
  /** Best first. Empty when nothing at all will do. */
  readonly choices: readonly RefitChoice[];
}

/** Sections of a span that differ by less than this share do not differ: the stated angle, and the rounding of the file. */
export const SAME_SECTION = 1e-3;

/** As many stretches as somebody wants to choose from. */
const STRETCHES = 3;

/** Finds where a donor can become longer or shorter along an axis. One plain span that is long enough comes first, then
 *  several; in a symmetric donor the same on both sides. Where that does not do, the choices are exact ones that
 *  lose the symmetry, cuts where the sections differ least, and stretches that distort, ranked by how much they damage;
 *  then `exact` is false and somebody has to be asked.
 *  Lengths and areas in the unit of the mesh, mm in the sentences. Throws `RespaceRefusal` when nothing is wanted.
 *  @example proposeRefit(blockOf10, { axis: [0, 0, 1], by: -3 }).exact // => true */
export function proposeRefit(
  mesh: DonorMesh,
  { axis, by }: WantedChange,
  options: RefitOptions = {},
): RefitProposal {
  if (!(Number.isFinite(by) && by !== 0))
    throw new RespaceRefusal('nothing_wanted', 'a change other than 0', `${by}`);
  const { features = [], keepSymmetry = true, rest = REST, kernel } = options;
  const frame = axisFrame(mesh.positions, axis);
  const spans = spansIn(mesh.triangles, frame, options);
  const mirror = keepSymmetry ? mirrorIn(mesh.triangles, frame) : null;
  const context: Context = { frame, by, features, mirror };

  const symmetric = mirror === null ? [] : mirroredRooms(spans, mirror, rest);
  const silent = spacedIn(mirror === null ? roomsOf(spans) : symmetric, context);
  const found = { axis: frame.axis, by, mirror, spans };
  if (silent[0]?.exact) return { ...found, exact: true, choices: silent };

  const lopsided = mirror === null ? [] : spacedIn(roomsOf(spans), context, false);
  const stretches = likelyStretches(mesh.triangles, frame, by, features, rest)
    .slice(0, STRETCHES)
    .map((stretch) => stretchChoice(stretch, context));
  const cuts = kernel ? cutChoices(kernel, mesh, context) : [];
  const whole = surfaceArea(mesh);
  const damage = (choice: RefitChoice): number =>
    choice.kind === 'cut'
      ? choice.cutsInto.length + choice.mismatchArea / choice.cut.area + choice.cut.lean
      : choice.changes.filter(({ kind }) => kind === 'distorted').length +
        (Math.abs(choice.strain) * choice.slantedArea) / whole +
        choice.mismatchArea / whole;
  const damaging = [...stretches, ...cuts].sort((a, b) => damage(a) - damage(b));
  return { ...found, exact: false, choices: [...silent, ...lopsided, ...damaging] };
}

/** Makes a choice of a proposal. A cut needs the kernel.
 *  Throws `RespaceRefusal` and `SolidProblem` as `respace` and `cutAndRejoin` do, `RangeError` for a cut without kernel. */
export function refit(
  mesh: DonorMesh,
  axis: Readonly<Vec3>,
  choice: RefitChoice,
  kernel?: ManifoldToplevel,
): DonorMesh {
  if (choice.kind !== 'cut')
    return respace(mesh, axis, choice.takeUps, choice.stays === null ? {} : { stays: choice.stays });
  if (!kernel) throw new RangeError('refit requires the kernel for a cut (none given)');
  return withScope(kernel, (scope) => cutAndRejoin(scope, mesh, axis, choice.cut));
}

interface Context {
  readonly frame: AxisFrame;
  readonly by: number;
  readonly features: readonly NamedFeature[];
  readonly mirror: number | null;
}

/** Every room that is large enough alone, best first; else as few as do together; else nothing. */
function spacedIn(rooms: readonly Room[], context: Context, keeps = true): readonly SpacedChoice[] {
  const { by } = context;
  const enough = (some: readonly Room[]): boolean =>
    some.length > 0 && (by > 0 || -by <= some.reduce((sum, { capacity }) => sum + capacity, 0));
  const alone = rooms.filter((room) => enough([room])).map((room) => roomChoice([room], context, keeps));
  if (alone.length > 0)
    return alone.sort(
      (a, b) =>
        Number(b.exact) - Number(a.exact) || a.changes.length - b.changes.length || a.strain - b.strain,
    );
  const largest = [...rooms].filter(({ capacity }) => capacity > 0).sort((a, b) => b.capacity - a.capacity);
  for (let count = 2; count <= largest.length; count++) {
    const some = largest.slice(0, count);
    if (enough(some)) return [roomChoice(some, context, keeps)];
  }
  return [];
}

function roomChoice(rooms: readonly Room[], context: Context, keeps: boolean): SpacedChoice {
  const { by, mirror } = context;
  const takeUps = takeUpsIn(rooms, by);
  const spans = rooms.flatMap((room) => room.spans).sort((a, b) => a.from - b.from);
  const mismatchArea = Math.max(...spans.map((span) => span.mismatchArea));
  const one = takeUps.length === 1;
  const where = spans.map(({ from, to }) => `${formatNumber(from)} to ${formatNumber(to)}`).join(' and ');
  const reason = one
    ? `the section stays the same from ${where}`
    : rooms.length === 1
      ? `the sections stay the same from ${where}, half in each`
      : `no span alone is long enough; the sections stay the same from ${where}`;
  const symmetry =
    mirror === null ? '' : keeps ? ', and both sides stay alike' : ', but both sides are no longer alike';
  const spaced = spacing(takeUps, context, keeps);
  return {
    kind: one ? 'span' : 'spans',
    // Facets of a bore that happen to run along the axis make a plain span too, in which it would not stay round.
    exact:
      spans.every((span) => span.mismatchArea <= SAME_SECTION * span.area) &&
      spaced.changes.every(({ kind }) => kind !== 'distorted'),
    keepsSymmetry: mirror === null ? null : keeps,
    mismatchArea,
    ...spaced,
    spans,
    slantedArea: 0,
    because: reason + symmetry,
  };
}

function stretchChoice(stretch: ReturnType<typeof likelyStretches>[number], context: Context): SpacedChoice {
  const { from, to, slantedArea, mismatchArea } = stretch;
  const { mirror } = context;
  const keeps = mirror !== null && Math.abs((from + to) / 2 - mirror) <= SAME_SECTION * (to - from);
  const spaced = spacing([{ from, to, by: context.by }], context, keeps);
  const distorted = spaced.changes.filter(({ kind }) => kind === 'distorted').map(({ id }) => id);
  return {
    kind: 'stretch',
    exact: false,
    keepsSymmetry: mirror === null ? null : keeps,
    mismatchArea: mismatchArea ?? 0,
    ...spaced,
    spans: [],
    slantedArea,
    because: `everything from ${formatNumber(from)} to ${formatNumber(to)} becomes ${percent(Math.abs(stretch.strain))} ${stretch.strain < 0 ? 'shorter' : 'longer'}, ${formatNumber(slantedArea)} mm2 of slanted or round faces with it${distorted.length > 0 ? `, and ${distorted.join(', ')}` : ''}`,
  };
}

function spacing(
  takeUps: readonly TakeUp[],
  { frame, features, mirror }: Context,
  keeps: boolean,
): Pick<SpacedChoice, 'takeUps' | 'stays' | 'strain' | 'changes' | 'cutsInto'> {
  return {
    takeUps,
    stays: keeps ? mirror : null,
    strain: Math.max(...takeUps.map(({ from, to, by }) => Math.abs(by) / (to - from))),
    changes: featureChanges(features, frame.axis, levelMap(takeUps)),
    cutsInto: [],
  };
}

function cutChoices(kernel: ManifoldToplevel, mesh: DonorMesh, context: Context): readonly CutChoice[] {
  const { frame, by, features, mirror } = context;
  return withScope(kernel, (scope) => likelyCuts(scope, mesh.triangles, frame, by, features, mirror)).map(
    (cut) => {
      const share = cut.mismatchArea / cut.area;
      const at = formatNumber(cut.at);
      return {
        kind: 'cut',
        exact: false,
        keepsSymmetry: mirror === null ? null : cut.at === mirror - Math.max(0, -by) / 2,
        mismatchArea: cut.mismatchArea,
        changes: [],
        cutsInto: cut.cutsInto,
        cut,
        because:
          by < 0
            ? `what lies from ${at} to ${formatNumber(cut.at - by)} is taken out, and the sections that meet differ by ${formatNumber(cut.mismatchArea)} mm2 (${percent(share)})`
            : `a straight piece with the section at ${at} is put in, where the walls lean by ${percent(cut.lean)}`,
      };
    },
  );
}

const percent = (share: number): string => `${formatNumber(100 * share)} %`;

function surfaceArea({ positions: p, triangles }: DonorMesh): number {
  let twice = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    twice += Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
  }
  return twice / 2;
}
