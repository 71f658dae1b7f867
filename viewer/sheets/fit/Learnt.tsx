import type { LadderFacts } from '../../../src/job/fitFacts.ts';
import { sentence } from '../../../src/output/words/index.ts';
import { useBench } from '../../bench/bench.ts';
import { leadTo } from '../../verdict/leadTo.ts';
import { ladderWords } from './fitWords.ts';

/** What ladders said of the fits. */
export function Learnt({ ladders }: { readonly ladders: readonly LadderFacts[] }) {
  const bench = useBench();
  if (ladders.length === 0) return null;
  return (
    <section>
      <h2>Felt on ladders</h2>
      <ul>
        {ladders.map((ladder) => (
          <li key={ladder.group}>
            {sentence(ladderWords(ladder))}{' '}
            {ladder.felt === null && (
              <button type="button" class="way" onClick={() => leadTo(bench, `ladders.${ladder.group}`)}>
                say how it felt
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
