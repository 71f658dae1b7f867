import { formatNumber } from '../../src/units/index.ts';
import { useBench } from '../bench/bench.ts';
import { alongWords } from '../donor/words.ts';
import { leastGaps } from './leastGaps.ts';
import type { SolidState } from './solidState.ts';
import { whereabouts } from './spots.ts';

/** What the picture shows, in words. */
export function SolidWords({ state }: { readonly state: SolidState }) {
  const bench = useBench();
  const [part, bounds, result] = [state.part.value, state.bounds.value, bench.made.value?.result];
  const title = result?.job.title ?? 'The part';
  const round = part?.round;
  const model = state.model.value;
  if (model)
    return (
      <p class="unseen" id="round-size">
        {model.model.file}:{' '}
        {model.axes.map(({ axis, now }) => `${formatNumber(now)} mm ${alongWords(axis)}`).join(', ')}.
      </p>
    );
  return (
    <div class="unseen">
      {bounds && part && (
        <p id="round-size">
          {part.scene.name === '' ? title : `${title}, ${part.scene.name}`}:{' '}
          {bounds.high.map((value, k) => formatNumber(value - bounds.low[k]!)).join(' by ')} mm, left to right
          by front to back by bottom to top. Around it:{' '}
          {part.scene.hosts.map(({ name }) => name).join(', ') || 'nothing'}.
        </p>
      )}
      {round && part.manner === 'gaps' && (
        <ul>
          {leastGaps(round.fit, 0).map(({ name, words }) => (
            <li key={name}>
              {name}: {words}
            </li>
          ))}
        </ul>
      )}
      <ul>
        {bounds &&
          state.spots.value.flatMap(({ at, findings }) =>
            findings.map(({ number, title: said, verdict }) => (
              <li key={number}>
                Finding {number}, {said}, {verdict}: {whereabouts(at, bounds.low, bounds.high)}
              </li>
            )),
          )}
      </ul>
    </div>
  );
}
