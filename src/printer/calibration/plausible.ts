import { defaultPrinter } from '../defaultPrinter.ts';
import { knownOf } from '../parameters.ts';
import { type Known, PARAMETERS, type Parameter, type PrinterProfile } from '../types.ts';
import type { CalibrationRemark } from './types.ts';

/** A parameter in the words of a bench. */
export const parameterName: Readonly<Record<Parameter, string>> = {
  'scale.x': 'scale along x',
  'scale.y': 'scale along y',
  'scale.z': 'scale along z',
  outerGrowth: 'growth of outer faces',
  boreShrink: 'shrink of bores and slots',
  boreCurvature: 'extra shrink of small bores',
  firstLayerSpread: 'spread of the first layer',
  firstLayerError: 'height of the first layer',
  levelSag: 'sag of level roofs',
  skew: 'skew of x against y',
};

/** Bore by which bores are judged, mm: the middle of the published 2 to 10. */
const TYPICAL_BORE = 5;

/** Scatter of sizes that ordinary machines keep, mm; common practice, no source. */
const USUAL_SCATTER = 0.04;

interface Range {
  readonly from: number;
  readonly to: number;
  readonly source: string;
}

/** What is common for machines that extrude filament. A profile far outside is more often a wrong coupon, a wrong
 *  setting or a wrong zero than a strange printer. Sources: bores of 2 to 10 mm 0.1 to 0.3 mm small, outer sizes within
 *  0.2 mm, first layer 0.1 to 0.3 mm a side wider, all as quoted in reviews of such machines (from memory, low
 *  confidence); moulded PLA and ABS shrink by 0.3 to 1.1 % (ISO 294-4 data sheets), printed parts rather less. The others
 *  common practice, no source: as wide as the doubt of a printer nobody has measured. */
function usual(parameter: Parameter): Range {
  switch (parameter) {
    case 'scale.x':
    case 'scale.y':
      return { from: 0.989, to: 1.002, source: 'moulded plastics shrink by up to 1.1 %' };
    case 'outerGrowth':
      return { from: -0.1, to: 0.1, source: 'outer sizes are usually within 0.2 mm' };
    case 'firstLayerSpread':
      return { from: 0, to: 0.3, source: 'usually up to 0.3 mm a side' };
    default: {
      const { value, u } = knownOf(defaultPrinter, parameter);
      const half = u * Math.sqrt(3);
      return { from: value - half, to: value + half, source: 'common practice' };
    }
  }
}

/** Units for a sentence. */
const unitOf = (parameter: Parameter): string =>
  parameter.startsWith('scale') || parameter === 'skew' ? '' : parameter === 'boreCurvature' ? ' mm2' : ' mm';

/** Parameters that lie outside what is common by more than their own doubt (k = 2), and a scatter above the common. */
export function plausibilityRemarks(profile: PrinterProfile): readonly CalibrationRemark[] {
  const outside = ({ value, u }: Known, { from, to }: Pick<Range, 'from' | 'to'>) =>
    value + 2 * u < from || value - 2 * u > to;
  const remarks = PARAMETERS.flatMap((parameter): CalibrationRemark[] => {
    const known = knownOf(profile, parameter);
    const range = usual(parameter);
    if (parameter === 'boreShrink' || parameter === 'boreCurvature' || !outside(known, range)) return [];
    const [value, from, to] = [known.value, range.from, range.to].map((x) => String(Number(x.toFixed(4))));
    return [
      {
        kind: 'implausible',
        parameter,
        sentence: `${parameterName[parameter]} is ${value}${unitOf(parameter)}, expected ${from} to ${to} (${range.source}); look at the coupon and the settings once more`,
      },
    ];
  });
  return [...remarks, ...boreRemark(profile), ...scatterRemark(profile)];
}

/** Bores are judged by what a person sees of them: how much a 5 mm one is small. */
function boreRemark({
  boreShrink,
  boreCurvature,
  calibration,
}: PrinterProfile): readonly CalibrationRemark[] {
  const small = 2 * boreShrink.value + boreCurvature.value / TYPICAL_BORE;
  const [b, c] = [PARAMETERS.indexOf('boreShrink'), PARAMETERS.indexOf('boreCurvature')];
  const together = calibration?.covariance[b]?.[c] ?? 0;
  const variance =
    4 * boreShrink.u ** 2 + (boreCurvature.u / TYPICAL_BORE) ** 2 + (4 / TYPICAL_BORE) * together;
  const u = Math.sqrt(Math.max(0, variance));
  // Settings that widen holes are common, so that none is no wonder.
  if (small + 2 * u >= 0 && small - 2 * u <= 0.4) return [];
  return [
    {
      kind: 'implausible',
      parameter: 'boreShrink',
      sentence: `a bore of ${TYPICAL_BORE} mm prints ${small.toFixed(2)} mm small, expected 0.1 to 0.3 mm, at most 0.4 (reviews of filament printers); look at the lands and the zero of the callipers`,
    },
  ];
}

function scatterRemark({ repeatability }: PrinterProfile): readonly CalibrationRemark[] {
  if (repeatability <= USUAL_SCATTER) return [];
  return [
    {
      kind: 'scatter',
      sentence: `sizes scatter by ${repeatability.toFixed(3)} mm about the fit, usually up to ${USUAL_SCATTER} mm; a loose belt, wet filament or hasty readings do that`,
    },
  ];
}
