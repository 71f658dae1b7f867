import { viewFrom } from '../output/drawing/index.ts';
import { encodePng, picture } from '../output/picture/index.ts';
import { stl } from '../output/stl.ts';
import { printMinutes } from '../printer/printMinutes.ts';
import type { ManifoldToplevel } from '../solid/kernel.ts';
import { canonical, sha256Hex } from './hash.ts';
import { type Ladder, ladder } from './ladder.ts';
import { type LadderOptions, ladderPart } from './ladderGroup.ts';
import type { Prepared } from './prepare.ts';
import type { LadderRecord } from './schema.ts';
import { FETTLE_VERSION } from './version.ts';

const PICTURE = { width: 1200, height: 640 } as const;

/** A ladder with its files and all there is to say of it. */
export interface DrawnLadder {
  readonly ladder: Ladder;
  /** The part it copies. */
  readonly prepared: Prepared;
  /** What the job remembers of it. */
  readonly record: LadderRecord;
  readonly files: readonly {
    readonly kind: 'stl' | 'png';
    readonly name: string;
    readonly bytes: Uint8Array<ArrayBuffer>;
  }[];
  /** Names of its interfaces for a person, by id. */
  readonly names: Readonly<Record<string, string>>;
  /** How it lies on the bed. */
  readonly lay: string;
  /** g and minutes. */
  readonly mass: number;
  readonly minutes: number;
  readonly cautions: readonly string[];
}

/** Draws a ladder of an interface or a group of them: its STL, a picture, and what the job has to remember. `base` is what
 *  the names of the files begin with, `date` the day on which it is drawn, YYYY-MM-DD. Throws `Refused` as `ladder` does. */
export function drawnLadder(
  kernel: ManifoldToplevel,
  whole: Prepared,
  name: string,
  { base, date, ...options }: LadderOptions & { readonly base: string; readonly date: string },
): DrawnLadder {
  const made = ladder(kernel, whole, name, options);
  const { prepared } = ladderPart(whole, name);
  const { job, family, material, printer } = prepared;
  const { group, volume, layers, extents, mesh } = made;
  const bytes = stl(mesh, {
    part: `ladder ${group}`,
    unit: 'mm',
    hash: sha256Hex(canonical({ record: made.record, version: FETTLE_VERSION })),
  });
  // From where the numbers stand upright: before the strip, a little to one side, high enough to read them.
  const long = extents[0] >= extents[1];
  const view = viewFrom(long ? [0.35, -1, 1.1] : [1, 0.35, 1.1]);
  const { width, height } = PICTURE;
  const png = encodePng(picture([{ mesh, style: 'part' }], { ...PICTURE, view }), width, height);
  const last = job.ladders?.[group];
  const names = ladderNames(base, group);
  return {
    ladder: made,
    prepared,
    record: {
      date,
      ...made.record,
      ...((last?.felt || last?.earlier) && { earlier: true }),
      // The same surface read once teaches the printer once: the next verdict takes the place of the last.
      ...(last?.learnt && { learnt: last.learnt }),
    },
    files: [
      { kind: 'stl', name: names.stl, bytes },
      { kind: 'png', name: names.png, bytes: Uint8Array.from(png) },
    ],
    names: Object.fromEntries(
      family.interfaces(prepared.values, {}).map((one) => [one.id, one.name] as const),
    ),
    lay: family.lay(prepared.values).name,
    mass: (volume / 1000) * material.density.value,
    minutes: printMinutes(volume, layers, printer),
    cautions: family.cautions(prepared.values),
  };
}

/** What the files of a ladder are called.
 *  @example ladderNames('keys', 'socket').stl // => 'keys-ladder-socket.stl' */
export const ladderNames = (base: string, group: string): Readonly<Record<'stl' | 'png', string>> => ({
  stl: `${base}-ladder-${group}.stl`,
  png: `${base}-ladder-${group}.png`,
});
