import type { Shape } from '../solid/shape.ts';
import type { Placement, Vec3 } from '../solid/vector.ts';
import type { Callout } from './callout.ts';
import type { ChoiceSpec, Choices, SizeSpec, TextSpec } from './choice.ts';
import type { FamilyFinding } from './familyFinding.ts';
import { type Feature, type Made, shapeOfFeatures } from './feature.ts';
import type { Interface } from './interface.ts';
import type { Load, Route } from './load.ts';
import type { HostPart, Pose } from './machine.ts';
import { alone, type Member } from './member.ts';
import type { ReadingSpec } from './reading.ts';
import type { Rule } from './rule.ts';
import type { Drawn, Numbers, Values } from './values.ts';

/** How the part lies on the bed. */
export interface Lay {
  readonly name: string;
  /** Turns the part so that up is bed z; the shift onto the bed is computed. */
  readonly turn: Placement;
}

/** A part family: everything Fettle knows about one kind of part. Pure functions of plain numbers;
 *  uncertainty, printer, checks and files are derived from them. */
export interface Family {
  /** Folder name: lower case, hyphens. */
  readonly id: string;
  readonly title: string;
  readonly version: number;
  /** SHA-256 of the bytes of the model that the family was made of, hex; absent where there was none. */
  readonly model?: string;
  /** One line for the list of families. */
  readonly summary: string;
  readonly readings: Readonly<Record<string, ReadingSpec>>;
  readonly choices: Readonly<Record<string, ChoiceSpec>>;
  readonly sizes: Readonly<Record<string, SizeSpec>>;
  readonly texts: Readonly<Record<string, TextSpec>>;
  /** What each size is when the job says nothing. Sees readings and choices; sizes are not there yet. */
  readonly normalSizes: (d: Values) => Numbers;
  /** The two points the jaws touch for each reading, frame of the part, mm; none for what has no place, as a mass. */
  readonly callouts: (d: Values) => Readonly<Partial<Record<string, Callout>>>;
  readonly rules: (d: Values) => readonly Rule[];
  /** Where part and machine meet. Called once with no drawn sizes, to plan them, and again with them, so that
   *  positions which hang on a drawn size are those of the STL. */
  readonly interfaces: (d: Values, drawn: Drawn) => readonly Interface[];
  readonly shape: (d: Values, drawn: Drawn) => Shape;
  /** Holes through the part, for the soundness check. */
  readonly genus: (d: Values) => number;
  readonly host: (d: Values) => readonly HostPart[];
  readonly motion: (d: Values) => readonly Pose[];
  readonly assembly: (d: Values) => readonly Route[];
  readonly loads: (d: Values, drawn: Drawn) => readonly Load[];
  readonly lay: (d: Values) => Lay;
  /** Whether the first layer is drawn in by what it will spread; a model drawn by others stays as it is. */
  readonly relieved: boolean;
  /** The parts that one job makes; each sees its own choices. At least one. */
  readonly members: (d: Values) => readonly Member[];
  /** What was done to a model that was there before. */
  readonly changes: (d: Values, drawn: Drawn) => readonly FamilyChange[];
  /** Findings of the family's own that need nothing but numbers. */
  readonly findings: (d: Values, made: Made) => readonly FamilyFinding[];
  /** Where the work can hurt someone or the machine: the usual cautions, never hidden, no full stop. */
  readonly cautions: (d: Values) => readonly string[];
}

/** A change of length made to a model that was there before; mm, in the model's own frame. */
export interface FamilyChange {
  readonly axis: Vec3;
  /** Longer by; below 0 shorter. */
  readonly by: number;
  /** Levels along the axis between which it was taken up. */
  readonly spans: readonly { readonly from: number; readonly to: number }[];
  /** It leaves no trace: sections there were the same all along. */
  readonly exact: boolean;
  /** By how much the sections differ that came to meet, mm^2. */
  readonly mismatchArea: number;
  readonly because: string;
}

type Typed<R extends string, C extends string, S extends string> = {
  readonly [K in keyof Family]: Family[K] extends (d: Values, ...rest: infer A) => infer B
    ? (d: Values<R, C, S>, ...rest: A) => B
    : Family[K];
};

/** What a family may leave to its features, or to what is usual: no motion, no rules, nothing to caution about. */
type MayBeLeft =
  | ('callouts' | 'rules' | 'interfaces' | 'shape' | 'genus' | 'host' | 'motion' | 'assembly' | 'loads')
  | ('findings' | 'cautions' | 'members' | 'texts' | 'changes' | 'relieved');

type Declaration<R extends string, C extends string, S extends string> = Omit<
  Typed<R, C, S>,
  'readings' | 'choices' | 'sizes' | 'normalSizes' | MayBeLeft
> & {
  readonly readings: Readonly<Record<R, ReadingSpec>>;
  readonly choices: Readonly<Record<C, ChoiceSpec>>;
  readonly sizes: Readonly<Record<S, SizeSpec>>;
  readonly normalSizes: (d: Values<R, C, never>) => Readonly<Record<S, number>>;
  readonly callouts?: (d: Values<R, C, S>) => Readonly<Partial<Record<R, Callout>>>;
  /** Pieces of which the part is made; what they bring is added to what the declaration says itself. With a `shape` of
   *  its own the declaration draws the part, and their plastic counts for nothing. */
  readonly features?: (d: Values<R, C, S>, drawn: Drawn) => readonly Feature[];
} & Partial<Pick<Typed<R, C, S>, Exclude<MayBeLeft, 'callouts'>>>;

/** Declares a family. The names of readings, choices and sizes are checked in every function of it.
 *  Throws `RangeError` when an id is malformed, one name is used twice, or nothing draws the part. */
export function family<const R extends string, const C extends string, const S extends string>(
  declaration: Declaration<R, C, S>,
): Family {
  if (!/^[a-z][a-z0-9-]*$/.test(declaration.id)) {
    throw new RangeError(
      `family requires an id of lower case letters, digits and hyphens (id ${declaration.id})`,
    );
  }
  const keys = [declaration.readings, declaration.choices, declaration.sizes].flatMap((part) =>
    Object.keys(part),
  );
  const twice = keys.find((key, k) => keys.indexOf(key) !== k);
  if (twice !== undefined) throw new RangeError(`family requires each name once (${twice} is used twice)`);
  if (!declaration.shape && !declaration.features)
    throw new RangeError(`family requires a shape or features that draw it (${declaration.id} has neither)`);
  // Names are checked where they are declared; the house handles every family through one type.
  return withFeatures(declaration as unknown as Partial<Family> & FeaturesOf) as Family;
}

interface FeaturesOf {
  readonly features?: (d: Values, drawn: Drawn) => readonly Feature[];
}

/** What a declaration says itself, and what its features bring. */
function withFeatures(told: Partial<Family> & FeaturesOf): Partial<Family> {
  const of = (d: Values, drawn: Drawn = {}) => told.features?.(d, drawn) ?? [];
  return {
    ...told,
    callouts: (d) => Object.assign({}, told.callouts?.(d), ...of(d).map(({ callouts }) => callouts)),
    rules: (d) => [...(told.rules?.(d) ?? []), ...of(d).flatMap(({ rules }) => rules ?? [])],
    interfaces: (d, drawn) => [
      ...(told.interfaces?.(d, drawn) ?? []),
      ...of(d, drawn).flatMap(({ interfaces }) => interfaces ?? []),
    ],
    shape: told.shape ?? ((d, drawn) => shapeOfFeatures(of(d, drawn))),
    genus: told.genus ?? ((d) => of(d).reduce((sum, { holes }) => sum + (holes ?? 0), 0)),
    host: (d) => [...(told.host?.(d) ?? []), ...of(d).flatMap(({ hosts }) => hosts?.() ?? [])],
    motion: told.motion ?? ((d) => motionOf(of(d)) ?? [{ name: 'in place', placements: {} }]),
    assembly: told.assembly ?? ((d) => routesOf(of(d))),
    loads: (d, drawn) => [
      ...(told.loads?.(d, drawn) ?? []),
      ...of(d, drawn).flatMap(({ loads }) => loads ?? []),
    ],
    findings: (d, made) => [
      ...(told.findings?.(d, made) ?? []),
      ...of(d, made.drawn).flatMap(({ findings }) => findings?.(made) ?? []),
    ],
    texts: told.texts ?? {},
    relieved: told.relieved ?? true,
    changes: told.changes ?? (() => []),
    members: told.members ?? (() => [alone]),
    cautions: (d) => [...(told.cautions?.(d) ?? []), ...of(d).flatMap(({ cautions }) => cautions ?? [])],
  };
}

/** The motion that a feature brings. Two of them would have to move at once, which nothing here tells how. */
function motionOf(features: readonly Feature[]): readonly Pose[] | undefined {
  const [motion, another] = features.flatMap((feature) => (feature.motion ? [feature.motion] : []));
  if (another) throw new RangeError('family requires at most one feature that moves the machine');
  return motion?.();
}

/** One order of putting the part in: step by step as the features come. None when no feature says how. */
function routesOf(features: readonly Feature[]): Route[] {
  const steps = features.flatMap(({ steps }) => steps ?? []);
  return steps.length === 0 ? [] : [{ id: 'as-it-comes', name: 'in this order', steps }];
}

/** Readings that this set of choices asks for, in the order of measuring. */
export const askedReadings = (of: Family, choices: Choices): readonly (readonly [string, ReadingSpec])[] =>
  Object.entries(of.readings).filter(([, spec]) => spec.when?.(choices) ?? true);
