import { boxOf } from '../donor/boxOf.ts';
import type { Donor } from '../donor/donor.ts';
import { featureChanges } from '../donor/respace/featureChange.ts';
import { levelMap } from '../donor/respace/levelMap.ts';
import { axisFrame, extentOf } from '../donor/spans/axisFrame.ts';
import { mirrorLevel } from '../donor/spans/mirrorLevel.ts';
import { partAxes } from '../donor/spans/partAxes.ts';
import { plainSpans } from '../donor/spans/plainSpans.ts';
import type { DonorMesh } from '../donor/types.ts';
import type { ManifoldToplevel } from '../solid/kernel.ts';
import { dot, times, type Vec3 } from '../solid/vector.ts';
import { type AxisName, axisName } from './axisName.ts';
import type { DonorTask } from './donorFamily.ts';
import { type DonorObject, donorObject } from './donorObject.ts';
import { type LengthReading, lengthReadings } from './lengthReadings.ts';
import { type RefitPicture, refitPicture } from './refitPicture.ts';
import { type RefitStep, type RefitSteps, refitSteps, unchanged, type WantedLength } from './refitSteps.ts';
import { type Band, bandsOf, type RefitWay, waysOf } from './refitWay.ts';

/** All that a sheet about a model shows: what it is, where it can change, what is changed. mm; levels are those of the part
 *  as it is after the changes. */
export interface RefitSheet {
  readonly model: DonorObject;
  readonly axes: readonly AxisLine[];
  /** Which of the axes is drawn. */
  readonly shown: number;
  readonly picture: RefitPicture;
  /** The plane in which the part mirrors itself, its level on the axis; null where none is to be kept. */
  readonly mirror: number | null;
  /** From low to high, along the axis drawn. */
  readonly spans: readonly ShownSpan[];
  readonly changes: readonly ShownChange[];
}

/** An axis that the part can be looked at along. */
export interface AxisLine {
  readonly axis: Vec3;
  readonly name: AxisName;
  /** Length over all in the model, and now. */
  readonly was: number;
  readonly now: number;
  /** Level at which the part begins now. */
  readonly low: number;
}

/** A stretch where the section stays the same. */
export interface ShownSpan {
  readonly from: number;
  readonly to: number;
  readonly length: number;
  /** Length in the model. */
  readonly was: number;
  /** How much more can be taken out. */
  readonly available: number;
  readonly area: number;
  readonly mismatchArea: number;
  /** Which of the changes made it what it is, the last one; null for none. */
  readonly change: number | null;
  /** Bores and posts that change with it: longer or shorter, or no longer round. */
  readonly longer: readonly string[];
  readonly distorts: readonly string[];
  /** The one that changes with it in a symmetric part; itself where it lies in the middle, null where there is none. */
  readonly partner: number | null;
}

/** A change of length that was asked for. */
export interface ShownChange {
  /** A change of the job by its place there, or the reading that asks for it. */
  readonly of: number | LengthReading;
  readonly axis: Vec3;
  readonly by: number;
  /** Place of the way that is taken among the ways; null where somebody has to choose. */
  readonly taken: number | null;
  readonly ways: readonly RefitWay[];
  /** Where it was made. */
  readonly bands: readonly Band[];
}

/** What of it is wanted. */
export interface AskedSheet {
  /** Which of the axes; null: the one along which the first change is, else the one with the longest stretch. */
  readonly axis: number | null;
  /** Quarter turns about the axis. */
  readonly roll: number;
  /** Lengths that readings ask for, with whatever way was chosen for each; mm over all. */
  readonly lengths: Readonly<Partial<Record<LengthReading, number>>>;
}

/** Two directions are the same axis. */
const SAME = 1 - 1e-9;
export const sameAxis = (a: Readonly<Vec3>, b: Readonly<Vec3>): boolean => Math.abs(dot(a, b)) >= SAME;

/** The same with the part that it is about, after the changes. */
export interface MeshedSheet extends RefitSheet {
  readonly mesh: DonorMesh;
}

/** The sheet of a refit. Changes are shown up to the first that somebody has to choose a way for. */
export function refitSheet(kernel: ManifoldToplevel, task: DonorTask, asked: AskedSheet): MeshedSheet {
  const { donor, wanted, keepSymmetry } = task;
  const made = refitSteps(kernel, unchanged(donor), wanted, keepSymmetry);
  const { mesh, steps } = made;
  const places = placesOf(wanted);
  const axes = axesOf(donor).map((axis): AxisLine => {
    const [was, now] = [levelsAlong(donor.mesh, axis), levelsAlong(mesh, axis)];
    return { axis, name: axisName(axis), was: was[1] - was[0], now: now[1] - now[0], low: now[0] };
  });
  const shown = Math.min(asked.axis ?? likelyAxis(donor, wanted, axes), axes.length - 1);
  const { axis } = axes[shown]!;
  const mirror = keepSymmetry ? mirrorLevel(mesh, axis) : null;
  const changes = [
    ...steps.map((step, k) => shownChange(places[k]!, step, forwardOf(step, steps.slice(k)))),
    ...(steps.at(-1)?.choice === undefined && steps.length > 0
      ? []
      : lengthsAsked(kernel, task, made, asked.lengths)),
  ];
  return {
    mesh,
    model: modelOf(donor),
    axes,
    shown,
    picture: refitPicture(
      mesh,
      donor.features,
      (p) => steps.reduce((at, step) => step.place(at), p),
      axis,
      asked.roll,
    ),
    mirror,
    spans: shownSpans(made, axis, changes, mirror),
    changes,
  };
}

function likelyAxis(donor: Donor, [first]: readonly WantedLength[], axes: readonly AxisLine[]): number {
  const [longest] = [...modelOf(donor).spans].sort((a, b) => b.available - a.available);
  const at = axes.findIndex(({ axis, name }) =>
    first ? sameAxis(axis, first.axis) : String(name) === String(longest?.axis),
  );
  return Math.max(0, at);
}

/** Where the changes that are made stand in the job; those by 0 are none. */
export const placesOf = (wanted: readonly WantedLength[]): readonly number[] =>
  wanted.flatMap(({ by }, k) => (by === 0 ? [] : [k]));

const models = new WeakMap<DonorMesh, DonorObject>();

/** What there is to say of a model, worked out once. */
export function modelOf(donor: Donor): DonorObject {
  const known = models.get(donor.mesh);
  if (known) return { ...known, file: donor.name };
  const object = donorObject(donor);
  models.set(donor.mesh, object);
  return object;
}

const axes = new WeakMap<DonorMesh, readonly Vec3[]>();

function axesOf({ mesh }: Donor): readonly Vec3[] {
  const known = axes.get(mesh);
  if (known) return known;
  const found = partAxes(mesh).map(({ axis }): Vec3 => [...axis]);
  axes.set(mesh, found);
  return found;
}

const levelsAlong = ({ positions }: DonorMesh, axis: Vec3): readonly [number, number] =>
  extentOf(axisFrame(positions, axis));

/** Where a level on the axis of a step comes to lie by it and the steps after it. */
function forwardOf({ wanted: { axis, by }, choice }: RefitStep, rest: readonly RefitStep[]) {
  return (level: number, isEnd: boolean): number => {
    // What a cut puts in begins at the cut and ends as much higher.
    const first = choice?.kind === 'cut' ? level + (isEnd ? by : 0) : undefined;
    const start = first === undefined ? rest : rest.slice(1);
    const from = times(axis, first ?? level);
    return dot(
      start.reduce((at, step) => step.place(at), from),
      axis,
    );
  };
}

function shownChange(
  of: ShownChange['of'],
  step: RefitStep,
  forward: (level: number, isEnd: boolean) => number,
): ShownChange {
  const { wanted, proposal, choice } = step;
  const taken = choice === undefined ? -1 : proposal.choices.indexOf(choice);
  return {
    of,
    axis: wanted.axis,
    by: wanted.by,
    taken: taken < 0 ? null : taken,
    ways: waysOf(step),
    bands: choice
      ? bandsOf(choice, wanted.by).map(({ from, to, by }) => ({
          from: forward(from, false),
          to: Math.max(forward(from, false), forward(to, true)),
          by,
        }))
      : [],
  };
}

/** Lengths that readings ask for, each of the part after the changes of the job. */
function lengthsAsked(
  kernel: ManifoldToplevel,
  { keepSymmetry, take }: DonorTask,
  made: RefitSteps,
  lengths: AskedSheet['lengths'],
): ShownChange[] {
  const { low, high } = boxOf(made.mesh.positions);
  return (Object.keys(lengthReadings) as LengthReading[]).flatMap((id) => {
    const k = lengthReadings[id];
    const size = lengths[id];
    const by = size === undefined ? 0 : size - (high[k]! - low[k]!);
    if (Math.abs(by) < 1e-6) return [];
    const axis: Vec3 = [Number(k === 0), Number(k === 1), Number(k === 2)];
    const one = refitSteps(kernel, made, [{ axis, by, take: take[id] }], keepSymmetry);
    return one.steps.map((step) => ({ ...shownChange(id, step, (level) => level), bands: [] }));
  });
}

function shownSpans(
  { mesh, named }: RefitSteps,
  axis: Vec3,
  changes: readonly ShownChange[],
  mirror: number | null,
): readonly ShownSpan[] {
  const spans = plainSpans(mesh, axis);
  const alike = (span: (typeof spans)[number]): number | null => {
    if (mirror === null) return null;
    const at = spans.findIndex(
      ({ from, to }) =>
        Math.abs(from + span.to - 2 * mirror) + Math.abs(to + span.from - 2 * mirror) < 0.1 * span.length,
    );
    return at < 0 ? null : at;
  };
  return spans.map((span) => {
    const { from, to, length, available, area, mismatchArea } = span;
    const on = changes.flatMap((change, at) =>
      typeof change.of === 'number' && sameAxis(change.axis, axis)
        ? change.bands
            .filter((band) => Math.min(to, band.to) - Math.max(from, band.from) > 0.5 * (band.to - band.from))
            .map(({ by }) => ({ at, by }))
        : [],
    );
    const touched = featureChanges(named, axis, levelMap([{ from, to, by: length }]));
    const idsOf = (wanted: 'longer' | 'distorted'): string[] =>
      touched.flatMap(({ id, kind }) => (kind === wanted ? [id] : []));
    return {
      ...{ from, to, length, available, area, mismatchArea },
      ...{ longer: idsOf('longer'), distorts: idsOf('distorted') },
      was: length - on.reduce((sum, { by }) => sum + by, 0),
      change: on.at(-1)?.at ?? null,
      partner: alike(span),
    };
  });
}
