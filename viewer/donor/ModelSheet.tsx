import { useEffect, useMemo } from 'preact/hooks';
import { useBench } from '../bench/bench.ts';
import { problemWords } from '../verdict/problemWords.ts';
import { AlongPicture } from './AlongPicture.tsx';
import { AxisChoice } from './AxisChoice.tsx';
import { Changes } from './Changes.tsx';
import { deskAtHand } from './deskAtHand.ts';
import { FoundOnModel } from './FoundOnModel.tsx';
import { ModelDoingLine } from './ModelDoingLine.tsx';
import { ModelFacts } from './ModelFacts.tsx';
import { modelDoing } from './modelsHere.ts';
import { RefitDesk } from './refitDesk.ts';
import { ScaledInstead } from './ScaledInstead.tsx';
import { Stretches } from './Stretches.tsx';
import './model.css';

/** The sheet about a model of a similar part: what it is, where it can become longer or shorter, and what is measured for. */
export default function ModelSheet() {
  const bench = useBench();
  const desk = useMemo(() => new RefitDesk(bench), [bench]);
  useEffect(() => {
    deskAtHand.value = desk;
    return () => {
      desk.leave();
      if (deskAtHand.peek() === desk) deskAtHand.value = null;
    };
  }, [desk]);
  const sheet = desk.sheet.value;
  const trouble = desk.trouble.value;
  return (
    <div class={`model-sheet${desk.busy.value ? ' busy' : ''}`}>
      {trouble.map((problem) => {
        const { name, what, wanted } = problemWords(problem);
        return (
          <p class="refused" role="alert" key={problem.code + problem.field}>
            <strong>{name}</strong> {what}. Wanted: {wanted}.
          </p>
        );
      })}
      {!sheet && trouble.length === 0 && <Waiting />}
      {sheet && (
        <>
          <ModelFacts desk={desk} sheet={sheet} />
          <section aria-label="Where it can change">
            <h2>Longer or shorter</h2>
            <p class="tip">
              The part lies along a rule. Lettered stretches keep their section, so they can change and nobody
              will see where. Nothing is ever scaled.
            </p>
            <button
              type="button"
              class="way to-the-round"
              onClick={() => document.querySelector('.paper > .solid')?.scrollIntoView()}
            >
              Or pull at the part itself, further down
            </button>
            <AxisChoice desk={desk} sheet={sheet} />
            <AlongPicture desk={desk} sheet={sheet} />
            <Stretches desk={desk} sheet={sheet} />
          </section>
          <Changes desk={desk} sheet={sheet} />
          <ScaledInstead model={sheet.model} />
          <FoundOnModel model={sheet.model} />
        </>
      )}
    </div>
  );
}

/** Until the first sheet is there: what is being done, and how to stop it; or that it was stopped. */
function Waiting() {
  const { job, spine } = useBench();
  const name = job.value.donor?.file ?? 'the model';
  const state = spine.state.value;
  const { kind } = state;
  if (kind === 'stopped' || kind === 'broken')
    return (
      <p class="waiting">
        {name} was looked at no further.{' '}
        <button type="button" onClick={() => spine.restart()}>
          go on
        </button>
      </p>
    );
  return (
    <div class="waiting">
      {modelDoing.value === null && state.kind === 'working' && state.what !== 'the model' ? (
        <p>Reckoning {state.what} first; where the model can change comes then ...</p>
      ) : (
        <ModelDoingLine name={name} />
      )}
      <button type="button" onClick={() => spine.stop()}>
        stop
      </button>
    </div>
  );
}
