import { block, cylinder } from '../../solid/primitives.ts';
import type { Shape } from '../../solid/shape.ts';
import type { Vec2, Vec3 } from '../../solid/vector.ts';
import { across, type Draft, type Group, lying, plausible, TIMES, unitAlong } from './draft.ts';
import type { Heights } from './heights.ts';

/** Length of the ribs, mm: jaws are some 3 mm thick. */
const RIB_LENGTH = 5;
/** Thin ribs are as many whole lines as reach this, mm; thick ones twice as many. */
const RIB = 1.2;
/** How far what stands reaches into the plate, mm, so that nothing is joined along a face only. */
const ROOTED = 1;
/** Height above the plate at which jaws take hold, mm. */
const HOLD = 2.5;

interface RibAt {
  readonly across: 'x' | 'y';
  readonly lines: 1 | 2;
  readonly centre: Vec2;
  readonly number: Vec2;
}

const ribsAt: readonly RibAt[] = [
  { across: 'x', lines: 1, centre: [29.4, 8.6], number: [27.3, 1.3] },
  { across: 'x', lines: 2, centre: [38.2, 8.6], number: [36.1, 1.3] },
  { across: 'y', lines: 1, centre: [46.7, 8.6], number: [44.6, 1.3] },
  { across: 'y', lines: 2, centre: [52.7, 8.6], number: [50.6, 1.3] },
];

/** Ribs of whole lines, two measured across x and two across y. */
export function ribs(heights: Heights, lineWidth: number): Group {
  const thin = lineWidth * Math.ceil(RIB / lineWidth - 1e-6);
  const made = ribsAt.map(({ across: axis, lines, centre, number }, k): { draft: Draft; shape: Shape } => {
    const width = Math.round(thin * lines * 1e6) / 1e6;
    const id = `rib.${axis}.${(k % 2) + 1}`;
    const at: Vec3 = [...centre, heights.plate + HOLD];
    const draft: Draft = {
      id,
      kind: 'rib',
      axis,
      nominal: width,
      at,
      callout: across(at, unitAlong[axis], width),
      measurand: { kind: 'rib', direction: [...unitAlong[axis]] },
      reading: {
        id,
        name: `${lines === 1 ? 'Thin' : 'Thick'} rib across ${axis}`,
        jaw: 'outside',
        ...plausible(width),
      },
      times: TIMES,
      tip: 'large jaws from above on the middle of the rib, tips clear of the plate; press lightly, it bends',
      place: lying(...number, heights),
    };
    return {
      draft,
      shape: upright(centre, axis === 'x' ? [width, RIB_LENGTH] : [RIB_LENGTH, width], heights),
    };
  });
  return { adds: made.map(({ shape }) => shape), cuts: [], drafts: made.map(({ draft }) => draft) };
}

interface PostAt {
  readonly size: number;
  readonly centre: Vec2;
  readonly numbers: { readonly x: Vec2; readonly y: Vec2 };
}

const square: PostAt = { size: 4, centre: [62, 8.6], numbers: { x: [56.5, 1.3], y: [62.3, 1.3] } };
const round: PostAt = { size: 5, centre: [8.8, 65.8], numbers: { x: [1.4, 60.8], y: [6.1, 70.8] } };

/** A square and a round post, each measured across x and y. */
export function posts(heights: Heights): Group {
  const drafts = (
    [
      ['square', square],
      ['round', round],
    ] as const
  ).flatMap(([shape, { size, centre, numbers }]) =>
    (['x', 'y'] as const).map((axis): Draft => {
      const id = `post.${shape}.${axis}`;
      const at: Vec3 = [...centre, heights.plate + HOLD];
      return {
        id,
        kind: 'post',
        axis,
        nominal: size,
        at,
        callout: across(at, unitAlong[axis], size),
        measurand: { kind: 'post', direction: [...unitAlong[axis]] },
        reading: {
          id,
          name: `${shape === 'square' ? 'Square' : 'Round'} post across ${axis}`,
          jaw: 'outside',
          ...plausible(size),
        },
        times: TIMES,
        tip: `large jaws from above, closed along ${axis}, tips clear of the plate`,
        place: lying(...numbers[axis], heights),
      };
    }),
  );
  const { plate, post } = heights;
  return {
    adds: [
      upright(square.centre, [square.size, square.size], heights),
      cylinder({
        axis: 'z',
        diameter: round.size,
        from: [...round.centre, plate - ROOTED],
        length: post - plate + ROOTED,
        sense: 'shaft',
      }),
    ],
    cuts: [],
    drafts,
  };
}

const upright = ([x, y]: Readonly<Vec2>, [u, v]: Readonly<Vec2>, { plate, post }: Heights): Shape =>
  block([x - u / 2, y - v / 2, plate - ROOTED], [x + u / 2, y + v / 2, post]);
