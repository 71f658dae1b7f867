import type { Check } from './context.ts';
import { unlessHolds, verdictOf } from './verdictOf.ts';

/** Heat near the part against what the material bears for good. */
export const heat: Check = ({ material, temperature }) => {
  const limit = material.serviceTemperature;
  const { verdict, margin } = verdictOf(temperature, limit.value, 'below', 0.9);
  return [
    {
      id: 'heat',
      title: 'heat near the part',
      verdict,
      value: temperature,
      limit: limit.value,
      unit: 'degC',
      margin,
      because: `the part gets up to ${temperature.toFixed(0)} degC; ${material.name} keeps its shape under load up to ${limit.value.toFixed(0)} degC`,
      source: limit.source,
      remedy: unlessHolds(
        verdict,
        'a material that bears more heat, such as ABS or ASA, or a place further from the warm parts',
      ),
      at: null,
    },
  ];
};
