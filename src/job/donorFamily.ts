import { boxOf } from '../donor/boxOf.ts';
import type { Donor } from '../donor/donor.ts';
import { resizeRound } from '../donor/features/resizeRound.ts';
import type { Bore, Post } from '../donor/features/types.ts';
import { acrossOf } from '../donor/spans/axisFrame.ts';
import type { DonorMesh } from '../donor/types.ts';
import {
  bore,
  type Callout,
  type Drawn,
  depth,
  type Family,
  family,
  type Interface,
  insideRound,
  oneOf,
  outside,
  post,
  up,
  type Values,
} from '../family/index.ts';
import type { ReadingSpec } from '../family/reading.ts';
import type { ManifoldToplevel } from '../solid/kernel.ts';
import { fromMesh } from '../solid/shape.ts';
import type { Vec3 } from '../solid/vector.ts';
import { type LengthReading, lengthReadings } from './lengthReadings.ts';
import { changed, unchanged, type WantedLength } from './refitSteps.ts';

const axisOf = (k: number): Vec3 => [Number(k === 0), Number(k === 1), Number(k === 2)];
const letter = (k: number): string => 'xyz'[k]!;

/** What a job says about its donor, understood. */
export interface DonorTask {
  /** SHA-256 of the model's bytes, hex. */
  readonly model: string;
  readonly donor: Donor;
  readonly wanted: readonly WantedLength[];
  readonly keepSymmetry: boolean;
  /** Choices for lengths that readings ask for, from 1, by reading. */
  readonly take: Readonly<Partial<Record<LengthReading, number | undefined>>>;
}

/** A refit is a family of its own: its readings are the machine's counterparts of what was found on the donor, each of
 *  which may be left out, and its shape is the donor with lengths re-spaced and bores and posts drawn anew for the
 *  printer. Everything else of the pipeline takes it like any other. Functions of it throw `ChangeUndecided` where
 *  somebody has to choose. */
export function donorFamily(kernel: ManifoldToplevel, task: DonorTask): Family {
  const { donor } = task;
  const { bores, posts } = donor.features;
  const start = changed(kernel, unchanged(donor), task.wanted, task.keepSymmetry);
  const box = boxOf(start.mesh.positions);
  const extents = box.high.map((high, k) => high - box.low[k]!) as Vec3;
  const centre = middleOf(start.mesh);
  const made = remembering((lengths: string) => {
    const wanted = (JSON.parse(lengths) as [LengthReading, number][]).map(([id, size]): WantedLength => {
      const k = lengthReadings[id];
      return { axis: axisOf(k), by: size - extents[k]!, take: task.take[id] };
    });
    return changed(kernel, start, wanted, task.keepSymmetry);
  });
  const lengthsOf = (d: Values, drawn: Drawn): [LengthReading, number][] =>
    (Object.keys(lengthReadings) as LengthReading[]).flatMap((id): [LengthReading, number][] =>
      Number.isFinite(d[id]) ? [[id, drawn[id] ?? d[id]!]] : [],
    );
  const readings: Record<string, ReadingSpec> = {
    ...Object.fromEntries(bores.map((one) => [one.id, shaftReading(one)])),
    ...Object.fromEntries(posts.map((one) => [one.id, holeReading(one)])),
    ...Object.fromEntries(
      (Object.keys(lengthReadings) as LengthReading[]).map((id) => [id, lengthReading(id, extents)]),
    ),
  };
  const callouts: Record<string, Callout> = {
    ...Object.fromEntries([...bores, ...posts].map((one) => [one.id, jawsAcross(one)])),
    ...Object.fromEntries(
      (Object.keys(lengthReadings) as LengthReading[]).map((id) => {
        const k = lengthReadings[id];
        const end = [...box.low] as Vec3;
        end[k] = box.high[k];
        return [id, [box.low, end] as Callout];
      }),
    ),
  };
  return family({
    id: 'donor',
    title: `Refit of ${donor.name}`,
    version: 1,
    model: task.model,
    summary: 'a model of a similar part, re-spaced and drawn anew for this machine and printer',
    readings,
    choices: {
      lay: oneOf(
        'lay',
        ['z', '-z', 'x', '-x', 'y', '-y'],
        'z',
        'Which way of the model points up on the bed',
      ),
    },
    sizes: {},
    normalSizes: () => ({}),
    callouts: () => callouts,
    interfaces: (d, drawn) => {
      const asked = <T extends Bore | Post>(list: readonly T[]): T[] =>
        list.filter(({ id }) => Number.isFinite(d[id]));
      // Before sizes are planned nobody looks at places, and working them out is most of the work.
      const planned = Object.keys(drawn).length > 0;
      const moved = planned ? made(JSON.stringify(lengthsOf(d, drawn))) : undefined;
      const at = (p: Vec3): Vec3 => moved?.place(start.place(p)) ?? p;
      const middle = moved ? middleOf(moved.mesh) : centre;
      return [
        ...asked(bores).map((one) => boreInterface({ ...one, at: at(one.at) }, d[one.id]!)),
        ...asked(posts).map((one) => postInterface({ ...one, at: at(one.at) }, d[one.id]!)),
        ...lengthsOf(d, drawn).map(([id]) => lengthInterface(id, d[id]!, middle, extents)),
      ];
    },
    shape: (d, drawn) => {
      const moved = made(JSON.stringify(lengthsOf(d, drawn)));
      let { mesh } = moved;
      for (const one of [...bores, ...posts]) {
        const size = drawn[one.id];
        const at = moved.place(start.place(one.at));
        if (size !== undefined) mesh = resizeRound(kernel, mesh, { ...one, at }, size);
      }
      return fromMesh(mesh);
    },
    genus: () => donor.read.sound.genus,
    relieved: false,
    changes: (d, drawn) => [...start.changes, ...made(JSON.stringify(lengthsOf(d, drawn))).changes],
    cautions: () => [
      'The model was drawn for another machine: what nobody has measured on yours is taken as it is in the model',
      'A model has an author: respect its licence when you pass the part on',
    ],
    lay: (d) => ({ name: `${d.choices.lay} of the model up`, turn: up[d.choices.lay as keyof typeof up] }),
  });
}

/** Middle of the box around a mesh. */
function middleOf(mesh: DonorMesh): Vec3 {
  const { low, high } = boxOf(mesh.positions);
  return [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2];
}

/** The last results of a function of a text, for the many times the pipeline asks for the same. */
function remembering<T>(of: (key: string) => T): (key: string) => T {
  const known = new Map<string, T>();
  return (key) => {
    const found = known.get(key);
    if (found !== undefined) return found;
    if (known.size >= 8) known.clear();
    const made = of(key);
    known.set(key, made);
    return made;
  };
}

const number = (id: string): string => id.replace(/^\D+/, '');
const rounded = (mm: number): number => Number(mm.toFixed(2));

const shaftReading = ({ id, inscribed }: Bore): ReadingSpec =>
  outside(`what goes in bore ${number(id)}`, {
    from: rounded(inscribed / 4),
    to: rounded(inscribed * 3),
    typical: inscribed,
    optional: true,
    tip: 'Large jaws on what the machine puts into this bore; leave it out where the bore is right as it is',
  });

const holeReading = ({ id, circumscribed }: Post): ReadingSpec =>
  insideRound(`hole for post ${number(id)}`, {
    from: rounded(circumscribed / 4),
    to: rounded(circumscribed * 3),
    typical: circumscribed,
    optional: true,
    tip: 'Small jaws in the hole of the machine that takes this post; leave it out where the post is right as it is',
  });

const lengthReading = (id: LengthReading, extents: Vec3): ReadingSpec => {
  const k = lengthReadings[id];
  return depth(`length along ${letter(k)}`, {
    from: rounded(extents[k]! / 5),
    to: rounded(extents[k]! * 5),
    typical: extents[k]!,
    optional: true,
    tip: 'How long the part must be over all in your machine; leave it out where the model is right',
  });
};

/** Where jaws touch a round feature: across its axis at its middle. */
function jawsAcross({ at, axis, diameter }: Bore | Post): Callout {
  const [side] = acrossOf(axis);
  const end = (sign: 1 | -1): Vec3 => at.map((x, k) => x + (sign * side[k]! * diameter) / 2) as Vec3;
  return [end(-1), end(1)];
}

const roundInterface = ({ at, axis, diameter }: Bore | Post, host: number, length: number, name: string) => ({
  ...{ name, host, at, axis, length, across: acrossOf(axis)[0], round: diameter },
});

const boreInterface = (one: Bore, host: number): Interface =>
  bore(one.id, { ...roundInterface(one, host, one.depth, `in bore ${number(one.id)}`), fit: 'sliding' });

const postInterface = (one: Post, host: number): Interface =>
  post(one.id, {
    ...roundInterface(one, host, one.length, `post ${number(one.id)} in its hole`),
    fit: 'snug',
  });

/** Over two outer faces, neither of which meets anything: a length need not be better than this, mm. Common practice, no
 *  source. */
const LENGTH = { lo: -0.2, hi: 0.2 };

function lengthInterface(id: LengthReading, host: number, at: Vec3, extents: Vec3): Interface {
  const k = lengthReadings[id];
  const across = axisOf(k);
  const axis = axisOf((k + 1) % 3);
  return post(id, {
    ...{ name: `length along ${letter(k)}`, host, fit: LENGTH, at, axis, across },
    length: extents[(k + 1) % 3]!,
  });
}
