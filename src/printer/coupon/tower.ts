import { cylinder, prism } from '../../solid/primitives.ts';
import type { Vec2 } from '../../solid/vector.ts';
import { across, type Draft, type Group, plausible, TIMES, unitAlong } from './draft.ts';
import { ground } from './ground.ts';
import type { Heights } from './heights.ts';

/** Plan of the tower, mm: a square whose outer corner is cut behind the flat below it. */
const tower = { low: 1.4, high: 11.2, cut: 5.2 } as const;
/** Middle of the level bore in the front face, mm. */
const BORE_AT = 7;
const ROOTED = 1;
/** Where the depth rod runs, mm from the outer edge, and how high above the plate. */
const LANE = 4.5;
const ROD_ABOVE = 2;

/** The tower in the corner: heights, depths, a level bore, and two faces to measure towards from the ends of the arms. */
export function towerGroup(heights: Heights): {
  readonly body: Omit<Group, 'drafts'>;
  readonly levelBore: Draft;
  readonly steps: readonly Draft[];
} {
  const { low, high, cut } = tower;
  const { plate, boreFloor, boreRoof, tower: top } = heights;
  const outline: Vec2[] = [
    [cut - low, low],
    [high, low],
    [high, high],
    [low, high],
    [low, cut - low],
  ];
  const diameter = tidy(boreRoof - boreFloor);
  const bore = cylinder({
    axis: 'y',
    diameter,
    from: [BORE_AT, low - 1, (boreFloor + boreRoof) / 2],
    length: high - low + 2,
    sense: 'bore',
  });
  return {
    body: { adds: [prism('z', outline, plate - ROOTED, top)], cuts: [bore] },
    levelBore: levelBore(heights, diameter),
    steps: [...upright(heights), ...alike(heights)],
  };
}

function levelBore({ plate, boreFloor, boreRoof }: Heights, diameter: number): Draft {
  const at: [number, number, number] = [BORE_AT, (tower.low + tower.high) / 2, (boreFloor + boreRoof) / 2];
  const id = 'bore.level';
  return {
    id,
    kind: 'bore',
    axis: 'y',
    nominal: diameter,
    at,
    callout: across([at[0], tower.low + 1.5, at[2]], unitAlong.z, diameter),
    // Its walls are the ends of the outlines on either side of it, as `measurandOf` of a job says of level hollows.
    measurand: {
      kind: 'step',
      direction: [0, 0, 1],
      faces: { outer: -2, inner: 0 },
      lowerFace: boreFloor,
      roof: true,
    },
    // Layers leave flats in its floor and roof that are wider than any land, so it reads as no round hole does.
    reading: { id, name: 'Level bore, floor to roof', jaw: 'inside', ...plausible(diameter) },
    times: TIMES,
    tip: 'small jaws from the front into the bore of the tower, opened up and down; clear stray threads off its roof first',
    place: { at: [4.95, tower.low, plate + 0.8], along: [1, 0, 0], up: [0, 0, 1] },
  };
}

function upright({ plate, tower: top }: Heights): Draft[] {
  const step = (
    id: string,
    lowerFace: number,
    upperFace: number,
    [x, y]: Vec2,
    words: Pick<Draft, 'tip' | 'place'> & {
      readonly name: string;
      readonly jaw: 'outside' | 'depth';
      readonly sunk?: true;
    },
  ): Draft => {
    const { name, jaw, ...rest } = words;
    const nominal = tidy(upperFace - lowerFace);
    return {
      id,
      kind: 'step',
      axis: 'z',
      nominal,
      at: [x, y, (lowerFace + upperFace) / 2],
      callout: [
        [x, y, lowerFace],
        [x, y, upperFace],
      ],
      measurand: { kind: 'step', direction: [0, 0, 1], faces: { outer: 0, inner: 0 }, lowerFace },
      reading: { id, name, jaw, ...plausible(nominal) },
      times: TIMES,
      ...rest,
    };
  };
  const onTop = (y: number) => ({ at: [4.9, y, top], along: [1, 0, 0], up: [0, 1, 0] }) as Draft['place'];
  return [
    step('height.plate', 0, plate, [ground.reach - 2.4, 8.6], {
      name: 'Thickness of the plate',
      jaw: 'outside',
      tip: 'large jaws over underside and top at the end of the arm along x, clear of the numbers',
      place: { at: [68.3, 1.3, plate], along: [1, 0, 0], up: [0, 1, 0] },
    }),
    step('height.tower', 0, top, [tower.low + 1.2, 7.4], {
      name: 'Height of the tower',
      jaw: 'outside',
      tip: 'large jaws from the left over underside and top of the tower',
      place: onTop(6.7),
      sunk: true,
    }),
    step('depth.tower', plate, top, [tower.high + 1.6, 10], {
      name: 'Top of the tower to the plate',
      jaw: 'depth',
      tip: 'end of the beam flat on the tower, rod down along its right side, at the back, to the plate',
      place: onTop(2),
      sunk: true,
    }),
  ];
}

/** From the end of an arm to the face of the tower that looks the same way: growth takes from one what it gives to the
 *  other, so that the scale shows alone. */
function alike({ plate }: Heights): Draft[] {
  const z = plate + ROD_ABOVE;
  const { reach } = ground;
  const nominal = tidy(reach - tower.high);
  const middle = (reach + tower.high) / 2;
  const spans = [
    ['x', [tower.high, LANE, z], [reach, LANE, z], [middle, LANE, z], 'right', 'right'],
    ['y', [LANE, tower.high, z], [LANE, reach, z], [LANE, middle, z], 'far', 'back'],
  ] as const;
  return spans.map(([axis, near, far, at, end, face]): Draft => {
    const id = `step.${axis}`;
    return {
      id,
      kind: 'step',
      axis,
      nominal,
      at: [...at],
      callout: [[...near], [...far]],
      measurand: { kind: 'step', direction: [...unitAlong[axis]], faces: { outer: 0, inner: 0 } },
      reading: { id, name: `End of the arm to the tower along ${axis}`, jaw: 'depth', ...plausible(nominal) },
      times: TIMES,
      tip: `end of the beam flat on the ${end} end of the arm, rod level just over the plate along the outer edge until it meets the ${face} face of the tower`,
      place:
        axis === 'x'
          ? { at: [tower.high, 3.55, plate + 6.4], along: [0, 1, 0], up: [0, 0, 1] }
          : { at: [0.9, 22.5, plate], along: [1, 0, 0], up: [0, 1, 0] },
    };
  });
}

/** A difference of heights without the last digits that rounding leaves. */
const tidy = (value: number): number => Math.round(value * 1e6) / 1e6;
