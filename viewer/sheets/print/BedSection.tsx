import { formatNumber } from '../../../src/units/index.ts';
import { useBench } from '../../bench/bench.ts';
import { useDrawer } from '../../drawer/drawer.ts';
import { Mark } from '../../verdict/Mark.tsx';
import { AlongSection } from './AlongSection.tsx';
import { BedPicture } from './BedPicture.tsx';
import { bedDesk } from './bedDesk.ts';
import { Fact } from './Fact.tsx';
import { Quantity } from './Quantity.tsx';
import { refusalWords } from './refusalWords.ts';
import { Standing } from './Standing.tsx';
import { Support } from './Support.tsx';

/** How the part lies, how much of the bed and of the evening it takes, what to mind while it prints, and what else is printed
 *  along. */
export function BedSection() {
  const bench = useBench();
  const desk = bedDesk(bench, useDrawer());
  const bed = desk.facts.value;
  const refused = desk.refused.value;
  const result = bench.made.value?.result;
  return (
    <section class="lay" aria-labelledby="lay-head">
      <h2 id="lay-head">On the bed</h2>
      <div class={`lay-body${desk.stale.value ? ' stale' : ''}`}>
        {bed && <BedPicture bed={bed} stale={desk.stale.value} />}
        {!bed && !refused && (
          <p class="waiting">{result ? 'laying the parts out ...' : 'there is no part yet'}</p>
        )}
        {refused && (
          <div class="bed-refused" role="alert">
            <Mark verdict="fails" />
            <div>
              <p>
                <strong>Not all at once.</strong>
              </p>
              {refused.problems.map((problem) => (
                <p key={`${problem.code} ${problem.field}`}>{refusalWords(problem)}</p>
              ))}
              <p class="aside">
                {desk.along.isAsked.value
                  ? 'The files of this job are there all the same; those of the bed wait until all is on it.'
                  : 'The STL holds one of each; the 3MF waits until they fit.'}
              </p>
            </div>
          </div>
        )}
        <dl class="facts">
          <Quantity />
          {result && <Fact name="lies">{result.print.lay}</Fact>}
          {result && (
            <Fact name="layers">
              {Math.max(...result.parts.map(({ print }) => print.layers))} of {result.print.layer} mm,{' '}
              {formatNumber(Math.max(...result.parts.map(({ print }) => print.extents[2])))} mm high
              {bed && bed.jobs.length > 1 && `; all together ${bed.layers}, ${formatNumber(bed.used[2])} mm`}
            </Fact>
          )}
          {bed && <Standing bed={bed} />}
          {result && <Support />}
        </dl>
      </div>
      {result && <AlongSection desk={desk} />}
    </section>
  );
}
