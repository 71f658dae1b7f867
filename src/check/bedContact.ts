import { massOf } from '../solid/mass.ts';
import { meshOf } from '../solid/meshOf.ts';
import { area } from '../solid/profile.ts';
import { formatLength, formatNumber } from '../units/index.ts';
import type { Check, CheckContext } from './context.ts';
import type { Finding } from './finding.ts';
import { convexHull, depthInside } from './polygons.ts';

/** First layers below these come off the bed, or may, mm^2. Common practice, no source. */
const COMES_OFF = 5;
const MAY_COME_OFF = 25;

/** Foot over height below which the nozzle knocks a part over, or may: eight and four times as high as its foot is
 *  wide. Common practice, no source. */
const TOPPLES = 1 / 8;
const MAY_TOPPLE = 1 / 4;

const source = 'common practice, no source';

/** Bed contact: how much of the first layer lies on the bed, mm^2, and how well the part stands on it: twice the
 *  distance from below the centre of gravity to the nearest edge of the foot, over the height. The foot is the
 *  convex outline of the first layer. */
export const bedContact: Check = (context) => [contact(context), tip(context)];

function contact({ layers }: CheckContext): Finding {
  const value = (layers[0]?.contours ?? []).reduce((sum, contour) => sum + area(contour), 0);
  const verdict = value < COMES_OFF ? 'fails' : value < MAY_COME_OFF ? 'caution' : 'holds';
  return {
    ...{ id: 'contact', title: 'hold on the bed', verdict, value, limit: COMES_OFF, unit: 'mm2' },
    ...{ margin: value - COMES_OFF, source, at: null },
    because: `the first layer covers ${formatNumber(value)} mm2; below ${COMES_OFF} mm2 a part comes off, below ${MAY_COME_OFF} mm2 it may`,
    remedy: verdict === 'holds' ? '' : 'lay the part on a larger face, or print it with a brim',
  };
}

function tip({ layers, solid, known }: CheckContext): Finding {
  const title = 'stands without tipping';
  const { centre } = known.of('mass', solid, () => massOf(meshOf(solid)));
  const height = solid.boundingBox().max[2];
  const foot = convexHull((layers[0]?.contours ?? []).flat());
  const at = centre;
  if (foot.length < 3) {
    return {
      ...{
        id: 'tip',
        title,
        verdict: 'fails',
        value: null,
        limit: TOPPLES,
        unit: '1',
        margin: null,
        source,
        at,
      },
      because: 'the first layer is empty, so there is nothing to stand on',
      remedy: 'lay the part on a face',
    };
  }
  const depth = depthInside([centre[0], centre[1]], foot);
  const value = (2 * depth) / height;
  const verdict = value < TOPPLES ? 'fails' : value < MAY_TOPPLE ? 'caution' : 'holds';
  return {
    ...{ id: 'tip', title, verdict, value, limit: TOPPLES, unit: '1', margin: value - TOPPLES, source, at },
    because:
      depth < 0
        ? `the centre of gravity lies ${formatLength(-depth)} outside the foot`
        : `${formatLength(height)} high on a foot ${formatLength(2 * depth)} wide about the centre of gravity: ${formatNumber(value)} of the height, at least ${formatNumber(MAY_TOPPLE)} stands safely`,
    remedy: verdict === 'holds' ? '' : 'lay the part down, or print it with a brim or a prop',
    details: { 'height, mm': height, 'foot about the centre of gravity, mm': 2 * depth },
  };
}
