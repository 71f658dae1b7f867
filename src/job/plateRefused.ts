import type { PlateRefusal } from '../output/plate/index.ts';
import { formatNumber } from '../units/index.ts';
import { Refused } from './problem.ts';

/** Lengths of the axes, mm, without noughts behind the point. */
const size = (...lengths: readonly number[]): string =>
  `${lengths.map((length) => String(Number(formatNumber(length)))).join(' x ')} mm`;

/** The refusal of a layout in the words of a job: what is asked, what the bed holds. */
export function plateRefused(
  { code, item, needs, bed, asked, fit }: PlateRefusal,
  parts: readonly { readonly name: string }[],
  spacing: number,
): Refused {
  const room = size(bed.x, bed.y);
  if (item !== null && needs !== null) {
    const { name } = parts[item]!;
    const tall = code === 'plate_too_tall';
    return new Refused([
      {
        code,
        field: 'printer.bed',
        value: tall ? `${size(bed.z)} high` : room,
        allowed: tall
          ? `at least ${size(needs.z)} high`
          : `at least ${size(needs.x, needs.y)}, ${size(spacing)} around the part included`,
        reason: `is too small for ${name}`,
      },
    ]);
  }
  return new Refused([
    {
      code,
      field: 'quantity',
      value: `${asked} parts`,
      allowed: `${fit} of them at once, or less than ${size(spacing)} between them`,
      reason: `do not fit on ${room} with ${size(spacing)} between them and around`,
    },
  ]);
}
