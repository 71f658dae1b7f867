import { formatNumber } from '../units/index.ts';
import type { Check } from './context.ts';

const axes = ['x', 'y', 'z'] as const;

/** Bed fit: the part as laid against the printer's room, axis by axis; the value is the extent on the axis with the
 *  least to spare, mm. `caution` when it only fits turned a quarter on the bed. */
export const bedFit: Check = ({ solid, printer }) => {
  const box = solid.boundingBox();
  const extent = {
    x: box.max[0] - box.min[0],
    y: box.max[1] - box.min[1],
    z: box.max[2] - box.min[2],
  };
  const room = printer.bed;
  const spare = (axis: (typeof axes)[number]): number => room[axis] - extent[axis];
  const tightest = axes.reduce((a, b) => (spare(b) < spare(a) ? b : a));
  const fits = spare(tightest) >= 0;
  const turned = extent.x <= room.y && extent.y <= room.x && extent.z <= room.z;
  const size = axes.map((axis) => formatNumber(extent[axis])).join(' x ');
  const bed = axes.map((axis) => formatNumber(room[axis])).join(' x ');
  return [
    {
      ...{ id: 'bed', title: 'room on the bed', verdict: fits ? 'holds' : turned ? 'caution' : 'fails' },
      ...{ value: extent[tightest], limit: room[tightest], unit: 'mm', margin: spare(tightest), at: null },
      because: `${size} mm as laid, room for ${bed} mm${fits ? '' : `; too long along ${tightest}`}`,
      source: `printer profile ${printer.name}`,
      remedy: fits
        ? ''
        : turned
          ? 'turn it a quarter on the bed before printing'
          : 'lay the part another way, or print it on a larger machine',
      details: { 'x, mm': extent.x, 'y, mm': extent.y, 'z, mm': extent.z },
    },
  ];
};
