import { useBench } from '../../bench/bench.ts';
import { Changed } from './Changed.tsx';
import { FitTable } from './FitTable.tsx';
import './fit.css';
import { Learnt } from './Learnt.tsx';
import { OnItsWay } from './OnItsWay.tsx';
import { PutIn } from './PutIn.tsx';
import { Refit } from './Refit.tsx';
import { useFitFacts } from './useFitFacts.ts';

/** Sheet 2: how every meeting surface is to feel, where its clearance lies, what that rests on; and how the part goes in. The doubt
 *  about the whole stands in the verdict, which every sheet has. */
export default function FitSheet() {
  const bench = useBench();
  const facts = useFitFacts().value;
  const result = bench.made.value?.result;
  if (!result)
    return (
      <p class="waiting">
        {bench.outcome.value?.kind === 'refused'
          ? 'How it fits is told once the readings are there; what is missing stands below.'
          : 'reckoning ...'}
      </p>
    );
  return (
    <div class={`fit-sheet${bench.stale.value || bench.outcome.value?.kind === 'refused' ? ' stale' : ''}`}>
      <FitTable result={result} facts={facts} />
      {facts && <Learnt ladders={facts.ladders} />}
      {result.changed && result.changed.length > 0 && <Changed changed={result.changed} />}
      {result.changes && result.changes.length > 0 && <Refit changes={result.changes} />}
      {result.assembly && <PutIn assembly={result.assembly} findings={result.findings} />}
      {facts && <OnItsWay findings={result.findings} motion={facts.motion} />}
    </div>
  );
}
