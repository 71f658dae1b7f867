import { block } from '../../solid/primitives.ts';
import type { Vec3 } from '../../solid/vector.ts';
import { across, type Draft, type Group, lying, plausible, TIMES, unitAlong } from './draft.ts';
import { footedPrism } from './footed.ts';
import { ground, plateOutline } from './ground.ts';
import type { Heights } from './heights.ts';

/** Readings of the tab of one layer, whose thin edge reads less well than a wall. */
const TAB_TIMES = 3;
const { reach, arm, outerFlat, innerFlat, endFlat, notch, tab, ledge } = ground;

/** The plate, with what is read of it alone: arm width, first layer, long spans, diagonals. */
export function plate(heights: Heights): Group {
  const { firstLayer, plate: top, footEnd } = heights;
  const z = (footEnd + top) / 2;
  const outside = (
    id: string,
    axis: 'x' | 'y' | Vec3,
    nominal: number,
    at: Vec3,
    more: Pick<Draft, 'tip' | 'place'> & {
      readonly name: string;
      readonly atBed?: true;
      readonly times?: number;
    },
  ): Draft => {
    const direction: Vec3 = typeof axis === 'string' ? [...unitAlong[axis]] : axis;
    const { name, atBed, times = TIMES, tip, place } = more;
    return {
      id,
      kind: 'post',
      axis,
      nominal,
      at,
      callout: across(at, direction, nominal),
      measurand: { kind: 'post', direction, ...(atBed ? { atBed } : {}) },
      reading: { id, name, jaw: 'outside', ...plausible(nominal) },
      times,
      tip,
      place,
    };
  };
  const onLeft = (up: number): Draft['place'] => ({
    at: [1.4, 10.3, top + up],
    along: [0, -1, 0],
    up: [0, 0, 1],
  });
  const [long, short] = [(2 * reach - 2 * endFlat) / Math.SQRT2, (innerFlat - outerFlat) / Math.SQRT2];
  const [halfReach, middle] = [reach / 2, (outerFlat + innerFlat) / 4];
  const tabAt = (tab[0] + tab[1]) / 2;
  return {
    adds: [footedPrism(plateOutline, heights), block([tab[0], 0, 0], [tab[1], arm, firstLayer])],
    cuts: [
      block([notch[0], -1, firstLayer], [notch[1], ledge, top + 1]),
      block([notch[0], arm - ledge, firstLayer], [notch[1], arm + 1, top + 1]),
    ],
    drafts: [
      outside('post.arm.y', 'y', arm, [67.8, arm / 2, z], {
        name: 'Width of the arm across y',
        tip: 'large jaws from above over both long sides of the arm along x, near its number',
        place: lying(65.6, 6.6, heights),
      }),
      outside('foot.y', 'y', arm, [tabAt, arm / 2, firstLayer / 2], {
        name: 'First layer across y',
        atBed: true,
        times: TAB_TIMES,
        tip: 'large jaws from above in the two notches of the arm along x, down past the thin tab at the bottom: only its edges touch; close until it just drags',
        place: lying((notch[0] + notch[1]) / 2 - 2.75, 6.6, heights),
      }),
      outside('span.x', 'x', reach, [halfReach, 8.6, z], {
        name: 'Length along x',
        tip: 'large jaws from above over the left side, beside the tower, and the right end of the arm',
        place: onLeft(0.8),
      }),
      outside('span.y', 'y', reach, [8.6, halfReach, z], {
        name: 'Length along y',
        tip: 'large jaws from above over the front side, beside the tower, and the far end of the arm',
        place: onLeft(5.8),
      }),
      outside('diagonal.long', [Math.SQRT1_2, -Math.SQRT1_2, 0], long, [halfReach, halfReach, z], {
        name: 'Long diagonal',
        tip: 'large jaws from above over the slanted flats at the far ends of both arms; let the jaws find the flats',
        place: lying(0.6, 66, heights),
      }),
      outside('diagonal.short', [Math.SQRT1_2, Math.SQRT1_2, 0], short, [middle, middle, z], {
        name: 'Short diagonal',
        tip: 'large jaws from above over the slanted flat before the tower and the one inside the corner',
        place: lying(21.4, 7.8, heights),
      }),
    ],
  };
}
