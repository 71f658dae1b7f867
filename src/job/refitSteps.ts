import type { Donor } from '../donor/donor.ts';
import type { NamedFeature } from '../donor/respace/featureChange.ts';
import { levelMap } from '../donor/respace/levelMap.ts';
import { proposeRefit, type RefitProposal, refit } from '../donor/respace/proposeRefit.ts';
import type { RefitChoice } from '../donor/respace/refitChoice.ts';
import type { DonorMesh } from '../donor/types.ts';
import type { FamilyChange } from '../family/family.ts';
import type { ManifoldToplevel } from '../solid/kernel.ts';
import { add, dot, times, type Vec3 } from '../solid/vector.ts';
import { formatNumber } from '../units/index.ts';

/** A change of a donor's length that somebody asked for. */
export interface WantedLength {
  readonly axis: Vec3;
  /** Longer by, mm; below 0 shorter. */
  readonly by: number;
  /** Which of the choices to take, from 1; absent: the first, if it leaves no trace. */
  readonly take?: number | undefined;
}

/** A change that nobody can make without somebody's choice, or that cannot be made. */
export class ChangeUndecided extends RangeError {
  readonly axis: Vec3;
  readonly by: number;
  readonly proposal: RefitProposal;

  constructor(axis: Vec3, by: number, proposal: RefitProposal) {
    const change = `${axisText(axis)} by ${formatNumber(by)} mm`;
    super(
      proposal.choices.length === 0
        ? `no stretch of the donor can take up ${change}`
        : `no way to change ${change} leaves no trace; take ${waysText(proposal)}`,
    );
    this.name = 'ChangeUndecided';
    this.axis = axis;
    this.by = by;
    this.proposal = proposal;
  }
}

/** The ways of a proposal in one line, numbered from 1. */
const waysText = ({ choices }: RefitProposal): string =>
  choices.map(({ because }, k) => `${k + 1}: ${because}`).join('; ');

/** An axis in words: a letter where it is one. */
export function axisText(axis: Readonly<Vec3>): string {
  const k = axis.findIndex((x) => Math.abs(x - 1) < 1e-9);
  return k >= 0 ? 'xyz'[k]! : `the axis ${axis.map((x) => Number(x.toFixed(4))).join(' ')}`;
}

/** One change as far as it was made: what could be done, and what was. */
export interface RefitStep {
  readonly wanted: WantedLength;
  readonly proposal: RefitProposal;
  /** The mesh it was asked of. */
  readonly before: DonorMesh;
  /** Undefined where nobody has chosen; then it is the last step. */
  readonly choice: RefitChoice | undefined;
  /** Where it puts a point. */
  readonly place: (p: Vec3) => Vec3;
}

/** A donor as far as changes of length are concerned. */
export interface Lengthened {
  readonly mesh: DonorMesh;
  /** Bores and posts, where they are on it. */
  readonly named: readonly NamedFeature[];
}

/** Changes of length one after the other, as far as they can be made without asking, and the donor after them. */
export interface RefitSteps extends Lengthened {
  readonly steps: readonly RefitStep[];
}

/** Which of the ways of a proposal is taken: its number in `choices`, or undefined where somebody has to be asked. */
export type Choose = (proposal: RefitProposal, wanted: WantedLength, index: number) => number | undefined;

/** The way that was asked for; else the first, if it leaves no trace. */
export const asAsked: Choose = ({ exact, choices }, { take }) =>
  take === undefined ? (exact ? 0 : undefined) : take <= choices.length ? take - 1 : undefined;

/** Makes changes of length one after the other, up to the first that nobody has chosen a way for. Changes by 0 are none. */
export function refitSteps(
  kernel: ManifoldToplevel,
  donor: Lengthened,
  wanted: readonly WantedLength[],
  keepSymmetry: boolean,
  choose: Choose = asAsked,
): RefitSteps {
  let { mesh, named } = donor;
  const steps: RefitStep[] = [];
  for (const [index, change] of wanted.entries()) {
    const { axis, by } = change;
    if (by === 0) continue;
    const proposal = proposeRefit(mesh, { axis, by }, { features: named, keepSymmetry, kernel });
    const taken = choose(proposal, change, index);
    const choice = taken === undefined ? undefined : proposal.choices[taken];
    const before = mesh;
    const place = choice ? moveOf(axis, by, choice) : (p: Vec3): Vec3 => p;
    steps.push({ wanted: change, proposal, before, choice, place });
    if (!choice) break;
    mesh = refit(mesh, axis, choice, kernel);
    named = named.map((feature) => movedFeature(feature, place));
  }
  return { mesh, named, steps };
}

/** A refitted donor: the mesh after the changes asked for, and what was done. */
export interface ChangedDonor extends Lengthened {
  readonly changes: readonly FamilyChange[];
  /** Where a point of the donor has gone. */
  readonly place: (p: Vec3) => Vec3;
}

/** Makes changes of length one after the other. Throws `ChangeUndecided` at the first that leaves a trace and that nobody
 *  has chosen a way for. */
export function changed(
  kernel: ManifoldToplevel,
  donor: Lengthened,
  wanted: readonly WantedLength[],
  keepSymmetry: boolean,
): ChangedDonor {
  const { mesh, named, steps } = refitSteps(kernel, donor, wanted, keepSymmetry);
  const changes = steps.map(({ wanted: { axis, by }, proposal, choice }) => {
    if (!choice) throw new ChangeUndecided(axis, by, proposal);
    return reported(axis, by, choice);
  });
  return { mesh, named, changes, place: (p) => steps.reduce((at, step) => step.place(at), p) };
}

/** Where a choice puts a point. */
function moveOf(axis: Vec3, by: number, choice: RefitChoice): (p: Vec3) => Vec3 {
  const map = choice.kind === 'cut' ? undefined : levelMap(choice.takeUps, choice.stays ?? undefined);
  return (p) => {
    const level = dot(p, axis);
    const shift = map ? map.shift(level) : choice.kind === 'cut' && level > choice.cut.at ? by : 0;
    return [p[0] + shift * axis[0], p[1] + shift * axis[1], p[2] + shift * axis[2]];
  };
}

const reported = (axis: Vec3, by: number, choice: RefitChoice): FamilyChange => ({
  axis,
  by,
  spans:
    choice.kind === 'cut'
      ? [{ from: choice.cut.at, to: choice.cut.at + Math.max(0, -by) }]
      : choice.takeUps.map(({ from, to }) => ({ from, to })),
  exact: choice.exact,
  mismatchArea: choice.mismatchArea,
  because: choice.because,
});

/** A donor as it was read. */
export const unchanged = ({
  mesh,
  features: { bores, posts },
}: Pick<Donor, 'mesh' | 'features'>): Lengthened => ({
  mesh,
  named: [
    // The circle inside the facets: a larger one would reach into stretches beside the bore.
    ...bores.map(({ id, at, axis, inscribed: diameter, depth }) => ({ id, at, axis, diameter, depth })),
    ...posts.map(({ id, at, axis, inscribed: diameter, length: depth }) => ({
      ...{ id, at, axis, diameter, depth },
    })),
  ],
});

/** A bore or post after a step: its ends go where the part around them goes. */
function movedFeature(feature: NamedFeature, place: (p: Vec3) => Vec3): NamedFeature {
  const { at, axis, depth } = feature;
  const [a, b] = [-1, 1].map((sign) => place(add(at, times(axis, (sign * depth) / 2)))) as [Vec3, Vec3];
  const along = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as Vec3;
  return { ...feature, at: times(add(a, b), 0.5), depth: Math.hypot(...along) };
}
