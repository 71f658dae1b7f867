import { permissibleError } from '../standards/callipers.ts';
import type { Quantity } from '../units/index.ts';
import { combine, rectangular, resolutionUncertainty } from './budget.ts';
import { PRIOR_DEGREES_OF_FREEDOM } from './callipers.ts';
import { type CorrectedReading, correctedReading } from './correctedReading.ts';
import { type ReadingSpec, unitOf, withUnit } from './readingSpec.ts';
import { remarksOn } from './remarks.ts';
import { mean } from './statistics.ts';
import { typeA } from './typeA.ts';
import type { Callipers, Contributor, Dimension, Jaw } from './types.ts';

/** Last digit that an entered value is usually good to, in the unit of its quantity; a drawing's 4.02 may
 *  have been anything that rounds to it. Counts are exact. Common practice, no source. */
const ENTERED_STEP: Readonly<Record<Quantity, number>> = {
  length: 0.01,
  angle: 1,
  temperature: 1,
  count: 0,
  mass: 10,
};

/** What inside jaws and depth rod add to the error of the scale. */
const JAW_LABEL = { inside: 'callipers, inside jaws', depth: 'callipers, depth rod' } as const;

/** Readings of one thing as a dimension that knows how well it is known. `values` as read, in mm (or the
 *  unit of the quantity), at least one, an entered value exactly one.
 *
 *  Zero taken off, lands corrected, mean. Type A with pooled repeatability (`reading:ID`), step of the
 *  scale (`resolution:ID`), permissible error of scale and outside jaws (`calliper:scale`), what inside jaws or depth
 *  rod add to it (`calliper:inside`, `calliper:depth`), doubt about the land width (`calliper:landWidth`), each as it
 *  acts on the value; JCGM 100:2008, 4.2, 4.3, 5.1, G.4. Scale and jaw together have the variance of the permissible
 *  error of the jaw; that every jaw of a pair shares the error of its one scale is common practice, no source. The
 *  contributors `calliper:...` are shared: dimensions read with the same callipers err
 *  together, wholly correlated, each by its own `u` (which differs with the length). Remarks point at
 *  doubtful readings; none is ever left out.
 *
 *  Throws a RangeError without values, with values that are not finite or not above 0 (callipers), beyond
 *  the table of DIN 862 without an own permissible error, or for callipers that read no length; what
 *  `refusals` lets through does none of this.
 *  @example dimensionOf({ id: 'bar', name: 'Bar', jaw: 'outside', from: 0.8, to: 4 }, [1.6], defaultCallipers)
 *  // => { value: 1.6, u: 0.0232..., dof: 18, k: 2.1009..., U: 0.0489..., ... } */
export function dimensionOf(spec: ReadingSpec, values: readonly number[], callipers: Callipers): Dimension {
  if (values.length === 0) throw new RangeError(`${spec.name} requires at least 1 reading (given 0)`);
  const unusable = values.find((value) => !Number.isFinite(value));
  if (unusable !== undefined)
    throw new RangeError(`${spec.name} requires finite readings (given ${unusable})`);
  return spec.jaw === 'entered' ? entered(spec, values) : read(spec, spec.jaw, values, callipers);
}

function read(
  spec: ReadingSpec,
  jaw: Exclude<Jaw, 'entered'>,
  values: readonly number[],
  callipers: Callipers,
): Dimension {
  if (unitOf(spec) !== 'mm') {
    throw new RangeError(`${spec.name} requires an entered value, as callipers read no ${spec.quantity}`);
  }
  const corrected = values.map((value) => correctedReading(spec, value, callipers));
  const short = corrected.find(({ jaws }) => !(jaws > 0));
  if (short !== undefined) {
    throw new RangeError(`${spec.name} requires readings above 0 mm (given ${withUnit(short.jaws, 'mm')})`);
  }

  const sizes = corrected.map(({ value }) => value);
  const value = mean(sizes);
  const contributors = calliperContributors(spec, jaw, corrected, callipers);
  const budget = combine(contributors);
  // What one reading is known to scatter by: the hand, and the steps of the scale.
  const sigma0 = Math.hypot(callipers.repeatability, resolutionUncertainty(callipers.resolution));
  return {
    id: spec.id,
    name: spec.name,
    value,
    ...budget,
    unit: 'mm',
    n: values.length,
    contributors,
    remarks: remarksOn(spec, sizes, sigma0, budget.U),
  };
}

function calliperContributors(
  spec: ReadingSpec,
  jaw: Exclude<Jaw, 'entered'>,
  corrected: readonly CorrectedReading[],
  callipers: Callipers,
): readonly Contributor[] {
  const jaws = corrected.map((reading) => reading.jaws);
  const sensitivity = mean(corrected.map((reading) => reading.sensitivity));
  const landSensitivity = mean(corrected.map((reading) => reading.landSensitivity));

  // Evaluated on what the jaws stood apart, where s0 belongs, and carried over to the size after that.
  const repeated = typeA(
    jaws,
    callipers.repeatability,
    callipers.priorDegreesOfFreedom ?? PRIOR_DEGREES_OF_FREEDOM,
  );
  const { resolution } = callipers;
  const length = mean(jaws);
  const error = callipers.permissibleError ?? permissibleError({ resolution, jaw, length });
  const ofScale = callipers.permissibleError ?? permissibleError({ resolution, jaw: 'outside', length });
  const typeB = { distribution: 'rectangular', dof: Number.POSITIVE_INFINITY } as const;

  const contributors: Contributor[] = [
    {
      id: `reading:${spec.id}`,
      label: spec.name,
      u: sensitivity * repeated.u,
      distribution: 'student',
      dof: repeated.dof,
      ...(repeated.deviation !== undefined && { deviation: sensitivity * repeated.deviation }),
    },
    {
      id: `resolution:${spec.id}`,
      label: `step of the scale, ${spec.name}`,
      u: sensitivity * resolutionUncertainty(callipers.resolution),
      ...typeB,
    },
    {
      id: 'calliper:scale',
      label: 'callipers, scale',
      u: sensitivity * rectangular(ofScale),
      ...typeB,
    },
  ];
  if (jaw !== 'outside' && error > ofScale) {
    const added = Math.sqrt(error ** 2 - ofScale ** 2);
    contributors.push({
      id: `calliper:${jaw}`,
      label: JAW_LABEL[jaw],
      u: sensitivity * rectangular(added),
      ...typeB,
    });
  }
  const land = landSensitivity * (callipers.landWidthUncertainty ?? 0);
  if (land > 0) {
    contributors.push({
      id: 'calliper:landWidth',
      label: 'callipers, width of the lands',
      u: land,
      distribution: 'normal',
      dof: Number.POSITIVE_INFINITY,
    });
  }
  return contributors;
}

function entered(spec: ReadingSpec, values: readonly number[]): Dimension {
  if (values.length > 1)
    throw new RangeError(`${spec.name} requires 1 entered value (given ${values.length})`);
  if (spec.u !== undefined && !(spec.u >= 0)) {
    throw new RangeError(`${spec.name} requires a standard uncertainty of 0 or above (given ${spec.u})`);
  }
  const value = values[0]!;
  const contributors: readonly Contributor[] = [
    {
      id: `entered:${spec.id}`,
      label: `entered value, ${spec.name}`,
      u: spec.u ?? resolutionUncertainty(ENTERED_STEP[spec.quantity ?? 'length']),
      distribution: spec.u === undefined ? 'rectangular' : 'normal',
      dof: Number.POSITIVE_INFINITY,
    },
  ];
  const budget = combine(contributors);
  return {
    id: spec.id,
    name: spec.name,
    value,
    ...budget,
    unit: unitOf(spec),
    n: 1,
    contributors,
    remarks: remarksOn(spec, [value], 0, budget.U),
  };
}
