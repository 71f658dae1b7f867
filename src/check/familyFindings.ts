import { place } from '../solid/placement.ts';
import type { Check } from './context.ts';
import { unlessHolds, verdictOf } from './verdictOf.ts';

/** What the family itself computes, such as a bar that binds over the travel. */
export const familyFindings: Check = ({
  family,
  values,
  interfaces,
  prints,
  material,
  dimensions: known,
  onBed,
}) => {
  const drawn = Object.fromEntries(interfaces.map((one) => [one.id, one.drawn]));
  const doubt = Object.fromEntries(interfaces.map((one) => [one.id, one.u]));
  const found = family.findings(values, { drawn, prints, material, known, doubt });
  return found.map(({ side, missed = 'fails', remedy, at, ...finding }) => {
    const { verdict: reached, margin } = verdictOf(finding.value, finding.limit, side);
    const verdict = reached === 'fails' ? missed : reached;
    return { ...finding, verdict, margin, remedy: unlessHolds(verdict, remedy), at: place(onBed, [...at]) };
  });
};
