import type { Drawn } from '../family/values.ts';
import type { Shape } from '../solid/shape.ts';
import type { Prepared } from './prepare.ts';
import { Refused } from './problem.ts';
import { refusingRefit } from './refusingRefit.ts';
import type { Job } from './schema.ts';
import { shown } from './zodProblems.ts';

/** The part as the family draws it. Sizes that leave nothing to draw, such as a fit so loose that no post is left, are
 *  a problem of the job: throws `Refused`, naming the fits it asks for when there are any. */
export function shapeOf({ job, family, values }: Prepared, drawn: Drawn): Shape {
  // What a model cannot do has words of its own.
  if (family.model !== undefined) return refusingRefit(() => family.shape(values, drawn));
  try {
    return family.shape(values, drawn);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw nothingToDraw(job, error.message);
  }
}

/** That sizes leave no part, as a problem of the fits that a job asks for, or where it asks for none of its readings. */
export function nothingToDraw({ fits }: Pick<Job, 'fits'>, why: string): Refused {
  const asked = Object.keys(fits).length > 0;
  return new Refused([
    {
      code: 'shape_not_possible',
      field: asked ? 'fits' : 'readings',
      value: asked ? shown(fits) : '',
      allowed: asked ? 'fits that leave a part to draw' : 'readings and sizes that leave a part to draw',
      reason: `leave nothing to draw: ${why}`,
    },
  ]);
}
