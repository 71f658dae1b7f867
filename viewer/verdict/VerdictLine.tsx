import { useSignalEffect } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { countFindings, percent } from '../../src/output/words/index.ts';
import { useBench } from '../bench/bench.ts';
import { spokenWait } from '../spine/spokenWait.ts';
import { Mark } from './Mark.tsx';
import { StaleNote } from './StaleNote.tsx';
import { Settled } from './settled.ts';
import { takeStep } from './takeStep.ts';
import './verdictLine.css';
import {
  chanceWords,
  markOf,
  nextStep,
  problemsHeadline,
  spokenProblems,
  spokenVerdict,
} from './verdictWords.ts';

/** The verdict in one line that stays in sight while a sheet moves beneath it, and that is spoken once it has settled. */
export function VerdictLine() {
  const bench = useBench();
  const outcome = bench.outcome.value;
  const made = bench.made.value;
  const result = made?.result;
  const problems = outcome?.kind === 'refused' ? outcome.problems : [];
  const stale = bench.stale.value || problems.length > 0;
  const step = made && problems.length === 0 ? nextStep(made.result, made.onBench) : null;
  const grave = result ? countFindings(result.findings) : null;
  return (
    <section aria-label="Verdict in a line" class={`verdict-line${stale ? ' stale' : ''}`}>
      <Spoken />
      <Mark verdict={problems.length > 0 || !result ? 'open' : markOf(result)} />
      <p class="now">
        {problems.length > 0 ? (
          <>
            <strong>Not yet.</strong> <span>{problemsHeadline(problems)}</span>
            {result && result.chance !== null && (
              <span class="before"> Before: {percent(result.chance)}.</span>
            )}
          </>
        ) : result ? (
          <>
            <strong class="figure">{chanceWords(result).figure}</strong>{' '}
            <span>{chanceWords(result).words}</span>
            {grave && grave.fails > 0 && (
              <strong class="fails">
                {' '}
                {grave.fails} fail{grave.fails === 1 ? 's' : ''}
              </strong>
            )}
            {grave && grave.caution > 0 && (
              <span class="caution">
                {' '}
                {grave.caution} caution{grave.caution === 1 ? '' : 's'}
              </span>
            )}
          </>
        ) : (
          <span>the first verdict comes in a moment</span>
        )}
      </p>
      {problems.length === 0 && <StaleNote />}
      {step && (
        <p class="next">
          next: {step.words}
          {step.brings !== '' && <b> {step.brings}</b>}
        </p>
      )}
      {step && (
        <button type="button" onClick={() => takeStep(bench, step)}>
          {step.deed}
        </button>
      )}
      <a href="#verdict">why</a>
    </section>
  );
}

/** What a screen reader hears; apart from what is seen, which changes with every key. */
function Spoken() {
  const bench = useBench();
  const settled = useMemo(() => new Settled(), [bench]);
  const waits = useRef(0);
  useSignalEffect(() => {
    const outcome = bench.outcome.value;
    const busy = bench.stale.value || outcome === null;
    const count = spokenWait(bench.spine).count.value;
    // Who heard that it takes long is to hear that it is there, be it what it was.
    if (count !== waits.current && busy) settled.forget();
    waits.current = count;
    settled.offer(
      busy
        ? null
        : outcome.kind === 'made'
          ? spokenVerdict(outcome.result, outcome.onBench)
          : spokenProblems(outcome.problems),
    );
  });
  useEffect(() => () => settled.end(), [settled]);
  return (
    <p class="unseen" role="status">
      {settled.said.value}
    </p>
  );
}
