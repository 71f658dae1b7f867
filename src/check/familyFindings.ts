import { place } from '../solid/placement.ts';
import type { Check } from './context.ts';
import { unlessHolds, verdictOf } from './verdictOf.ts';

/** What the family itself computes, such as a bar that binds over the travel. */
export const familyFindings: Check = ({ family, values, prints, onBed }) =>
  family.findings(values, prints).map(({ side, remedy, at, ...finding }) => {
    const { verdict, margin } = verdictOf(finding.value, finding.limit, side);
    return { ...finding, verdict, margin, remedy: unlessHolds(verdict, remedy), at: place(onBed, [...at]) };
  });
