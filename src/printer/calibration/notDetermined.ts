import { predictedSize } from '../behaviour.ts';
import type { CouponFeature } from '../coupon/feature.ts';
import type { Parameter } from '../types.ts';
import type { CalibrationReport } from './types.ts';

/** Why a calibration left a parameter as it was, and what would tell, for a person: "not determined: read 5, 6". */
export function notDetermined(
  parameter: Parameter,
  { residuals, profile }: Pick<CalibrationReport, 'residuals' | 'profile'>,
  features: readonly CouponFeature[],
): string {
  const used = new Set(residuals.filter(({ leftOut }) => !leftOut).map(({ feature }) => feature));
  const telling = features.filter(
    ({ nominal, measurand }) =>
      predictedSize(nominal, measurand, profile).sensitivity[`printer:${parameter}`],
  );
  const unread = telling.filter(({ id }) => !used.has(id)).map(({ number }) => number);
  if (unread.length === 0) return 'hardly better known than before';
  const named = unread.slice(0, 4).join(', ');
  return `not determined: read ${named}${unread.length > 4 ? ' ...' : ''}`;
}
