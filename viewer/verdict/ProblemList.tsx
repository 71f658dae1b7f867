import type { Problem } from '../../src/job/problem.ts';
import { useBench } from '../bench/bench.ts';
import { leadTo } from './leadTo.ts';
import { Mark } from './Mark.tsx';
import { problemWords } from './problemWords.ts';
import { problemsHeadline } from './verdictWords.ts';

/** What is to be put right before anything can be made, each a way to its field. */
export function ProblemList({ problems }: { readonly problems: readonly Problem[] }) {
  const bench = useBench();
  return (
    <div class="problems">
      <p class="reading">
        <Mark verdict="open" />
        <span>
          <strong>Not yet.</strong> {problemsHeadline(problems)}
        </span>
      </p>
      <ul>
        {problems.map((problem, k) => {
          const { name, what, wanted } = problemWords(problem);
          return (
            <li key={k}>
              <button type="button" class="way" onClick={() => leadTo(bench, problem.field)}>
                {name}
              </button>{' '}
              {what}. <span class="wanted">Wanted: {wanted}.</span>
            </li>
          );
        })}
      </ul>
    </div>
  );
}
