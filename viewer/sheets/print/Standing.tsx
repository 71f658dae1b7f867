import { duration, significant } from '../../../src/output/words/index.ts';
import { formatNumber } from '../../../src/units/index.ts';
import type { BedFacts } from '../../spine/tasks/plate.ts';
import { Fact } from './Fact.tsx';

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
