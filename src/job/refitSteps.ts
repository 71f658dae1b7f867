import type { Donor } from '../donor/donor.ts';
import type { NamedFeature } from '../donor/respace/featureChange.ts';
import { levelMap } from '../donor/respace/levelMap.ts';
import { proposeRefit, type RefitProposal, refit } from '../donor/respace/proposeRefit.ts';
import type { RefitChoice } from '../donor/respace/refitChoice.ts';
import type { DonorMesh } from '../donor/types.ts';
import type { FamilyChange } from '../family/family.ts';
import type { ManifoldToplevel } from '../solid/kernel.ts';
import { dot, type Vec3 } from '../solid/vector.ts';
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

/** Changes of length one after the other, as far as they can be made without asking. `mesh` is the donor after them. */
export interface RefitSteps {
  readonly mesh: DonorMesh;
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
  donor: Pick<Donor, 'mesh' | 'features'>,
  wanted: readonly WantedLength[],
  keepSymmetry: boolean,
  choose: Choose = asAsked,
): RefitSteps {
  let { mesh } = donor;
  const steps: RefitStep[] = [];
  for (const [index, change] of wanted.entries()) {
    const { axis, by } = change;
    if (by === 0) continue;
    const proposal = proposeRefit(mesh, { axis, by }, { features: named(donor), keepSymmetry, kernel });
    const taken = choose(proposal, change, index);
    const choice = taken === undefined ? undefined : proposal.choices[taken];
    const before = mesh;
    const place = choice ? moveOf(axis, by, choice) : (p: Vec3): Vec3 => p;
    steps.push({ wanted: change, proposal, before, choice, place });
    if (!choice) break;
    mesh = refit(mesh, axis, choice, kernel);
  }
  return { mesh, steps };
}

/** A refitted donor: the mesh after the changes asked for, and what was done. */
export interface ChangedDonor {
  readonly mesh: DonorMesh;
  readonly changes: readonly FamilyChange[];
  /** Where a point of the donor has gone. */
  readonly place: (p: Vec3) => Vec3;
}

/** Makes changes of length one after the other. Throws `ChangeUndecided` at the first that leaves a trace and that nobody
 *  has chosen a way for. */
export function changed(
  kernel: ManifoldToplevel,
  donor: Pick<Donor, 'mesh' | 'features'>,
  wanted: readonly WantedLength[],
  keepSymmetry: boolean,
): ChangedDonor {
  const { mesh, steps } = refitSteps(kernel, donor, wanted, keepSymmetry);
  const changes = steps.map(({ wanted: { axis, by }, proposal, choice }) => {
    if (!choice) throw new ChangeUndecided(axis, by, proposal);
    return reported(axis, by, choice);
  });
  return { mesh, changes, place: (p) => steps.reduce((at, step) => step.place(at), p) };
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

const named = ({ features: { bores, posts } }: Pick<Donor, 'features'>): NamedFeature[] => [
  ...bores.map(({ id, at, axis, diameter, depth: long }) => ({ id, at, axis, diameter, depth: long })),
  ...posts.map(({ id, at, axis, diameter, length }) => ({ id, at, axis, diameter, depth: length })),
];
