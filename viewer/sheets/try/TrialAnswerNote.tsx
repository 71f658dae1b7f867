import { useEffect, useRef } from 'preact/hooks';
import { percent, sentence } from '../../../src/output/words/index.ts';
import type { TrialTold } from '../../spine/tasks/trial.ts';
import { Mark } from '../../verdict/Mark.tsx';
import { problemWords } from '../../verdict/problemWords.ts';
import { SizesChanged } from './SizesChanged.tsx';
import type { TryDesk } from './tryDesk.ts';
import { listed } from './tryWords.ts';

/** What became of the last deed: what is on record, what the next print changes and why, who learnt from it. */
export function TrialAnswerNote({ desk }: { readonly desk: TryDesk }) {
  const note = useRef<HTMLDivElement>(null);
  const answer = desk.answer.value;
  const seen = useRef(answer);
  useEffect(() => {
    if (answer !== null && answer !== seen.current) note.current?.focus();
    seen.current = answer;
  }, [answer]);
  if (answer === null) return null;
  return (
    <div class={`answer ${answer.kind}`} ref={note} tabIndex={-1} role="status">
      {answer.kind === 'recorded' && <Recorded told={answer.told} desk={desk} />}
      {answer.kind === 'taken-back' && (
        <p>
          What was said of print {answer.index + 1} is taken back, and what the printer learnt from it; what
          callipers read of it stays.
        </p>
      )}
      {answer.kind === 'refused' &&
        answer.problems.map((problem) => {
          const { name, what, wanted } = problemWords(problem);
          return (
            <p key={problem.code + problem.field}>
              <Mark verdict="fails" said /> {sentence(`${name}: ${what}; allowed: ${wanted}`)}
            </p>
          );
        })}
      {answer.kind === 'failed' && (
        <p>
          <Mark verdict="fails" said /> The reckoning stopped, so nothing is on record of it. What you said
          still stands below; try once more when it goes on.
        </p>
      )}
    </div>
  );
}

function Recorded({ told, desk }: { readonly told: TrialTold; readonly desk: TryDesk }) {
  const { index, sizes, chance, lesson, taken, advice } = told;
  const names = new Map(sizes.map(({ id, name }) => [id, name]));
  const print = `print ${index + 1}`;
  return (
    <>
      <h3>
        <Mark verdict="holds" /> Print {index + 1} is on record
      </h3>
      {taken.map(({ name, word, ids }) => (
        <p key={name}>
          {sentence(
            `${name} ${word} is taken for ${listed(ids.map((id) => names.get(id) ?? id))}, which was nearest to that end; if you know it was another, take it back and tell its sizes apart`,
          )}
        </p>
      ))}
      {advice.map(({ broken, sentence: words }) => (
        <p key={broken}>
          <Mark verdict="caution" said /> {sentence(`${broken}: ${words}`)}
        </p>
      ))}
      {chance.before !== null && chance.after !== null && (
        <p class="chances">
          fits <span>{percent(chance.before)}</span> <span aria-hidden="true">→</span>{' '}
          <span class="unseen">then</span>
          <b>{percent(chance.after)}</b> the next time
        </p>
      )}
      <SizesChanged sizes={sizes} unit={desk.reading.unit} print={print} />
      <p>{sentence(lesson)}</p>
      <p class="deeds">
        <button
          type="button"
          onClick={() => {
            desk.bench.sheet.value = 'print';
          }}
        >
          print the next one
        </button>
        <button type="button" disabled={desk.busy.value} onClick={() => void desk.takeBack()}>
          take it back
        </button>
      </p>
    </>
  );
}
