import { duration, significant } from '../../../src/output/words/index.ts';
import { formatNumber } from '../../../src/units/index.ts';
import type { BedFacts } from '../../spine/tasks/plate.ts';
import { Fact } from './Fact.tsx';

/** Which parts stand on the bed, by their numbers, where they are of more than one kind. */
export function KindsOnBed({ bed: { kinds } }: { readonly bed: BedFacts }) {
  if (kinds.length < 2) return null;
  return (
    <Fact name="parts">
      <ol class="kinds">
        {kinds.map(({ name, count, height }, k) => (
          <li key={`${k} ${name}`}>
            {name}, {count} off, {formatNumber(height)} mm high
          </li>
        ))}
      </ol>
    </Fact>
  );
}

/** How much of the bed that takes, and what it costs. */
export function Standing({ bed }: { readonly bed: BedFacts }) {
  const { used, spacing, turned, mass, minutes, method, kinds, tallestInside } = bed;
  const alike = kinds.every(({ height }) => Math.round(height) === Math.round(kinds[0]!.height));
  return (
    <>
      <Fact name="stand">
        {formatNumber(used[0])} × {formatNumber(used[1])} mm in the middle of the bed, at least {spacing} mm
        apart
        {turned > 0 && `; ${turned} turned`}
        {!alike &&
          (tallestInside ? '; tall ones inside' : '; so full that tall ones stand where there was room')}
      </Fact>
      <Fact name="take">
        {significant(mass)} g and about {duration(minutes)} in all <span class="aside">({method})</span>
      </Fact>
    </>
  );
}
