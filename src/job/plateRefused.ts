import type { PlateRefusal } from '../output/plate/index.ts';
import { formatNumber } from '../units/index.ts';
import { type Problem, Refused } from './problem.ts';

/** Lengths of the axes, mm, without noughts behind the point. */
const size = (...lengths: readonly number[]): string =>
  `${lengths.map((length) => String(Number(formatNumber(length)))).join(' x ')} mm`;

/** A plate that cannot be laid out. */
export class PlateRefused extends Refused {
  /** The job that is to blame, its place in the list from 0. */
  readonly job: number;

  constructor(job: number, problem: Problem) {
    super([problem]);
    this.job = job;
  }
}

/** The refusal of a layout in the words of a job: what is asked, what the bed holds. */
export function plateRefused(
  { code, item, needs, bed, asked, fit }: PlateRefusal,
  parts: readonly { readonly job: number; readonly name: string }[],
  spacing: number,
): PlateRefused {
  const room = size(bed.x, bed.y);
  if (item !== null && needs !== null) {
    const { name, job } = parts[item]!;
    const tall = code === 'plate_too_tall';
    const around = `${size(spacing)} around the part included`;
    return new PlateRefused(job, {
      code,
      field: 'printer.bed',
      value: tall ? `${size(bed.z)} high` : room,
      allowed: tall ? `at least ${size(needs.z)} high` : `at least ${size(needs.x, needs.y)}, ${around}`,
      reason: `is too small for ${name}`,
    });
  }
  const several = parts.some(({ job }) => job > 0);
  return new PlateRefused(0, {
    code,
    field: several ? '' : 'quantity',
    value: `${several ? 'with the other jobs ' : ''}${asked} parts`,
    allowed: `${fit} of them at once, or less than ${size(spacing)} between them`,
    reason: `do not fit on ${room} with ${size(spacing)} between them and around`,
  });
}
