import type { AxisName } from '../../job/axisName.ts';
import type { DonorObject } from '../../job/donorObject.ts';
import { percent } from '../../output/words/index.ts';
import { formatNumber } from '../../units/index.ts';
import { type Looks, wrapped } from '../terminal.ts';

/** More of one kind than this only hide the rest; all are in the JSON. */
const SHOWN = 12;

const axisText = (axis: AxisName): string =>
  typeof axis === 'string' ? axis : axis.map((x) => Number(x.toFixed(3))).join(' ');
const placeText = (at: readonly number[]): string => at.map((x) => formatNumber(x)).join(' ');
const several = (count: number, one: string, more: string): string => `${count} ${count === 1 ? one : more}`;

/** What a donor is, for a person at the bench. */
export function donorText(donor: DonorObject, path: string, { paint, width }: Looks): readonly string[] {
  const { units, extents, sound, spans, bores, posts, pockets } = donor;
  const sure = units.from === 'guess' ? `, ${percent(units.confidence)} sure` : '';
  const inside =
    sound.genus === 0 ? 'no hole through' : several(sound.genus, 'hole through', 'holes through');
  const section = (label: string, lines: readonly string[]): string[] =>
    lines.flatMap((line, k) =>
      wrapped(line, width - 12).map(
        (part, n) => `  ${(k === 0 && n === 0 ? label : '').padEnd(8)}  ${n === 0 ? '' : '  '}${part}`,
      ),
    );
  const first = <T>(list: readonly T[], text: (one: T) => string): string[] => [
    ...list.slice(0, SHOWN).map(text),
    ...(list.length > SHOWN ? [`and ${list.length - SHOWN} more; --json lists them all`] : []),
  ];
  const longestFirst = [...spans].sort((a, b) => b.length - a.length);
  const [longest] = longestFirst;
  return [
    `${paint.bold(donor.file)} - ${donor.triangles} triangles`,
    ...section('units', [`${units.guess}${sure}: ${units.because}`]),
    ...section('size', [`${extents.map((x) => formatNumber(x)).join(' x ')} mm`]),
    ...section('sound', [
      `${several(sound.bodies, 'body', 'bodies')}, ${inside}, ${Number(sound.volume.toPrecision(4))} mm3`,
    ]),
    ...section(
      'repaired',
      donor.repairs.map(({ sentence }) => sentence),
    ),
    ...section('odd', donor.remarks),
    ...section(
      'spans',
      spans.length === 0
        ? ['none: no stretch where the section stays the same']
        : first(
            longestFirst,
            ({ axis, from, to, length, available, area }) =>
              `along ${axisText(axis)} from ${formatNumber(from)} to ${formatNumber(to)}: ${formatNumber(length)} long, up to ${formatNumber(available)} can be taken out; section ${formatNumber(area)} mm2`,
          ),
    ),
    ...section(
      'bores',
      first(
        bores,
        ({ id, axis, at, inscribed, circumscribed, depth, through }) =>
          `${id}: ${formatNumber(inscribed)} (corners ${formatNumber(circumscribed)}) along ${axisText(axis)} at ${placeText(at)}, ${formatNumber(depth)} deep${through ? ', through' : ''}`,
      ),
    ),
    ...section(
      'posts',
      first(
        posts,
        ({ id, axis, at, inscribed, circumscribed, length }) =>
          `${id}: ${formatNumber(circumscribed)} (flats ${formatNumber(inscribed)}) along ${axisText(axis)} at ${placeText(at)}, ${formatNumber(length)} long`,
      ),
    ),
    ...section(
      'pockets',
      first(
        pockets,
        ({ id, kind, axis, width: across, length, depth, through }) =>
          `${id}: ${kind} ${formatNumber(across)} x ${formatNumber(length)} along ${axisText(axis)}, ${formatNumber(depth)} deep${through ? ', through' : ''}`,
      ),
    ),
    ...(longest
      ? [
          `next: fettle refit ${path} --axis ${axisText(longest.axis)} --by -1    longer or shorter where it leaves no trace`,
        ]
      : []),
    `      fettle donor ${path} --job my.refit.json    a job to measure your machine for`,
  ];
}
