import {
  countFindings,
  findingsHeadline,
  findingsSum,
  sentence,
  worstVerdict,
} from '../../src/output/words/index.ts';
import { useBench } from '../bench/bench.ts';
import { Cautions } from './Cautions.tsx';
import { DoubtBars } from './DoubtBars.tsx';
import { Findings } from './Findings.tsx';
import { Mark } from './Mark.tsx';
import { ProblemList } from './ProblemList.tsx';
import { StaleNote } from './StaleNote.tsx';
import { takeStep } from './takeStep.ts';
import './verdict.css';
import { unbroken } from './unbroken.ts';
import { chanceWords, limitWords, markOf, nextStep } from './verdictWords.ts';

/** The verdict: what is to be put right first, whether it fits, what limits that, what to do next, every finding, and what
 *  to mind. */
export function VerdictStrip() {
  const bench = useBench();
  const outcome = bench.outcome.value;
  const result = bench.made.value?.result;
  const problems = outcome?.kind === 'refused' ? outcome.problems : [];
  const stale = bench.stale.value || problems.length > 0;
  return (
    <section
      class={`verdict${stale ? ' stale' : ''}`}
      id="verdict"
      tabIndex={-1}
      aria-labelledby="verdict-title"
    >
      <h2 id="verdict-title">Will it fit?</h2>
      {problems.length > 0 && <ProblemList problems={problems} />}
      {result ? (
        <>
          <Chance />
          <Findings findings={result.findings} />
          <Cautions cautions={result.cautions} />
        </>
      ) : (
        problems.length === 0 && <p class="waiting">reckoning ...</p>
      )}
    </section>
  );
}

function Chance() {
  const bench = useBench();
  const { result, onBench } = bench.made.value!;
  const { figure, words } = chanceWords(result);
  const count = countFindings(result.findings);
  const worst = worstVerdict(count);
  const limit = limitWords(result);
  // Of an earlier state neither the next step nor the doubt is worth a look.
  const refused = bench.outcome.value?.kind === 'refused';
  const step = refused ? null : nextStep(result, onBench);
  return (
    <div class="chance">
      <p class="reading">
        <Mark verdict={markOf(result)} said />
        <b class="figure">{figure}</b>
        <span>
          {words}
          <StaleNote />
        </span>
      </p>
      {limit !== '' && <p>{unbroken(limit)}</p>}
      <p>
        <strong>{findingsHeadline[worst]}</strong> {sentence(findingsSum(count))}
      </p>
      {step && (
        <p class="next">
          <span>
            <b>Next:</b> {step.words}
            {step.brings === '' ? '.' : <span class="brings"> {step.brings}.</span>}
          </span>
          <button type="button" onClick={() => takeStep(bench, step)}>
            {step.deed}
          </button>
        </p>
      )}
      {!refused && <DoubtBars shares={result.shares} caption="What the doubt rests on" />}
    </div>
  );
}
