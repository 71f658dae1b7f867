import type { RefitProposal } from '../donor/respace/proposeRefit.ts';
import type { RefitChoice } from '../donor/respace/refitChoice.ts';
import type { ManifoldToplevel } from '../solid/kernel.ts';
import type { Vec3 } from '../solid/vector.ts';
import { formatNumber } from '../units/index.ts';
import { axisName } from './axisName.ts';
import type { DonorTask } from './donorFamily.ts';
import { Refused } from './problem.ts';
import { placesOf } from './refitSheet.ts';
import { asAsked, type RefitStep, refitSteps, unchanged, type WantedLength } from './refitSteps.ts';
import { type Band, bandsOf } from './refitWay.ts';
import type { Job } from './schema.ts';

type Told = NonNullable<Job['donor']>;
type ToldChange = Told['changes'][number];

/** What somebody wants of the lengths of a model. mm; levels of the part as it is now. */
export type LengthWish =
  /** Another change: `by` in the stretch between these levels, or wherever it leaves no trace. */
  | {
      readonly kind: 'add';
      readonly axis: Vec3;
      readonly by: number;
      readonly stretch?: { readonly from: number; readonly to: number };
    }
  /** A change of the job, by its place, by so much instead; 0 takes it out. `here`: nowhere but where it is made now. */
  | { readonly kind: 'set'; readonly change: number; readonly by: number; readonly here?: boolean }
  /** Another of the ways offered for a change, by its place among them. */
  | { readonly kind: 'take'; readonly change: number; readonly way: number }
  /** A symmetric model may lose its symmetry, or must keep it. */
  | { readonly kind: 'lopsided'; readonly lopsided: boolean };

/** What a job says of its donor once the wish is granted. */
export interface GrantedWish {
  readonly changes: readonly ToldChange[];
  readonly lopsided: boolean;
}

interface Kept {
  readonly told: ToldChange;
  readonly wanted: WantedLength;
  /** The step as it was; undefined for a new change and for one that came after a change nobody had chosen for. */
  readonly was: RefitStep | undefined;
  /** Only there: levels before the change. */
  readonly stretch?: { readonly from: number; readonly to: number } | undefined;
}

/** Grants a wish: works out which of the ways offered each change takes from then on, so that every change stays where it
 *  was. Numbers are told to a ten-thousandth of a millimetre. Throws `Refused` where the stretch cannot take it up. */
export function changedLengths(
  kernel: ManifoldToplevel,
  task: DonorTask,
  told: Told,
  unit: Job['unit'],
  wish: LengthWish,
): GrantedWish {
  const { donor, wanted, keepSymmetry } = task;
  const { steps } = refitSteps(kernel, unchanged(donor), wanted, keepSymmetry);
  const places = placesOf(wanted);
  const kept = wanted.map(
    (one, k): Kept => ({
      ...{ told: told.changes[k]!, wanted: one, was: steps[places.indexOf(k)] },
    }),
  );
  const lopsided = wish.kind === 'lopsided' ? wish.lopsided : told.lopsided;
  const next = granted(kept, wish, unit);

  const took: (number | undefined)[] = [];
  const counted = next.filter(({ wanted: { by } }) => by !== 0);
  refitSteps(
    kernel,
    unchanged(donor),
    counted.map(({ wanted }) => wanted),
    !lopsided,
    (proposal, _, index) => {
      const way = wayFor(proposal, counted[index]!);
      // The first that leaves no trace is taken without a word.
      took[index] = way === undefined || (way === 0 && proposal.exact) ? undefined : way + 1;
      return way;
    },
  );
  const changes = next.map((one): ToldChange => {
    const index = counted.indexOf(one);
    const { take: before, ...rest } = one.told;
    // Behind one that nobody has chosen a way for yet, everything stays as it was.
    const take = index in took ? took[index] : before;
    return { ...rest, ...(take !== undefined && { take }) };
  });
  return { changes, lopsided };
}

function granted(kept: readonly Kept[], wish: LengthWish, unit: Job['unit']): readonly Kept[] {
  switch (wish.kind) {
    case 'add':
      return [
        ...kept,
        {
          told: { axis: toldAxis(wish.axis), by: toldLength(wish.by, unit) },
          wanted: { axis: wish.axis, by: wish.by },
          was: undefined,
          stretch: wish.stretch,
        },
      ];
    case 'set':
      return kept.flatMap((one, k): Kept[] => {
        if (k !== wish.change) return [one];
        if (Math.abs(wish.by) < HAIR) return [];
        const { to: _, ...told } = one.told;
        return [
          {
            ...one,
            told: { ...told, by: toldLength(wish.by, unit) },
            wanted: { ...one.wanted, by: wish.by },
            stretch: wish.here ? stretchOf(one.was) : undefined,
          },
        ];
      });
    case 'take':
      return kept.map((one, k) =>
        k === wish.change ? { ...one, wanted: { ...one.wanted, take: wish.way + 1 }, was: undefined } : one,
      );
    case 'lopsided':
      return kept;
  }
}

/** Changes smaller than this are none, mm. */
const HAIR = 5e-5;

const toldAxis = (axis: Vec3): ToldChange['axis'] => {
  const name = axisName(axis);
  return typeof name === 'string' ? name : [...axis];
};

/** With its unit where a bare number would be inches. */
const toldLength = (mm: number, unit: Job['unit']): number | string => {
  const rounded = Number(mm.toFixed(4));
  return unit === 'mm' ? rounded : `${rounded} mm`;
};

function wayFor(proposal: RefitProposal, { wanted, was, stretch }: Kept): number | undefined {
  const like = was?.choice && wayLike(proposal, was.choice);
  if (like !== undefined) return like;
  if (stretch) return wayIn(proposal, wanted, stretch);
  if (!was?.choice) return asAsked(proposal, wanted, 0);
  return wayOver(proposal, stretchOf(was)!) ?? asAsked(proposal, { ...wanted, take: undefined }, 0);
}

/** The best way without a trace that changes a stretch, alone or with another. */
function wayOver({ choices }: RefitProposal, { from, to }: Band): number | undefined {
  const at = choices.findIndex(
    (choice) =>
      choice.exact && bandsOf(choice, 0).some((band) => Math.min(band.to, to) > Math.max(band.from, from)),
  );
  return at < 0 ? undefined : at;
}

/** Where a step was made, the first of its stretches; undefined for one that nobody had chosen a way for. */
const stretchOf = (was: RefitStep | undefined): Band | undefined =>
  was?.choice && bandsOf(was.choice, was.wanted.by)[0];

/** The way that takes all up in this stretch, or in it and its mirror image. Throws `Refused` where there is none. */
function wayIn(
  { choices, spans }: RefitProposal,
  { axis, by }: WantedLength,
  { from, to }: { readonly from: number; readonly to: number },
): number {
  const middle = (from + to) / 2;
  const covers = (band: { readonly from: number; readonly to: number }): boolean =>
    band.from <= middle && middle <= band.to;
  // With its mirror image at most: a way over several stretches is another wish.
  const at = choices.findIndex((choice) => {
    const bands = bandsOf(choice, by);
    const alone = bands.length === 1 || (bands.length === 2 && choice.keepsSymmetry === true);
    return (choice.kind === 'span' || choice.kind === 'spans') && alone && bands.some(covers);
  });
  if (at >= 0) return at;
  const span = spans.find((one) => one.from <= middle && middle <= one.to);
  throw new Refused([
    {
      code: 'stretch_too_short',
      field: 'donor.changes',
      value: `${formatNumber(by)} mm along ${axisWord(axis)}`,
      allowed:
        span && by < 0
          ? `at most ${formatNumber(span.available)} mm out of this stretch`
          : 'a stretch where the section stays the same',
    },
  ]);
}

const axisWord = (axis: Readonly<Vec3>): string => {
  const name = axisName(axis);
  return typeof name === 'string' ? name : name.map((x) => Number(x.toFixed(3))).join(' ');
};

/** The way that is most like one that was taken: of the same kind, over stretches as long, nearest to where it was. */
function wayLike({ choices }: RefitProposal, was: RefitChoice): number | undefined {
  const before = bandsOf(was, 0);
  const kindOf = ({ kind }: RefitChoice): string => (kind === 'spans' ? 'span' : kind);
  const apart = choices.map((choice) => {
    if (kindOf(choice) !== kindOf(was)) return Infinity;
    const bands = bandsOf(choice, 0);
    if (choice.kind === 'cut') return Math.abs(bands[0]!.from - before[0]!.from);
    if (bands.length !== before.length) return Infinity;
    return Math.max(
      ...bands.map((band, k) => {
        const [a, b] = [band.to - band.from, before[k]!.to - before[k]!.from];
        return Math.abs(a - b) > 0.01 * b ? Infinity : Math.abs(band.from - before[k]!.from);
      }),
    );
  });
  const nearest = Math.min(...apart);
  return Number.isFinite(nearest) ? apart.indexOf(nearest) : undefined;
}
