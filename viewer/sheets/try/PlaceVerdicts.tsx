import { useEffect, useMemo } from 'preact/hooks';
import type { JudgedSize } from '../../../src/job/inspection/printFacts.ts';
import { percent, sentence } from '../../../src/output/words/index.ts';
import { Mark } from '../../verdict/Mark.tsx';
import { Settled } from '../../verdict/settled.ts';
import { WindowBar } from '../fit/WindowBar.tsx';
import { capital } from '../measure/capital.ts';
import { figure } from '../measure/figures.ts';
import { focusReading } from '../measure/focusReading.ts';
import { NextSteps } from './NextSteps.tsx';
import { PrintMark } from './PrintMark.tsx';
import type { TryDesk } from './tryDesk.ts';
import { markedAs, printHeadline, verdictWord, verdictWords } from './tryWords.ts';

/** What the callipers say of each place: whether it fits, what to do where it does not, and why. */
export function PlaceVerdicts({ desk }: { readonly desk: TryDesk }) {
  const facts = desk.print.facts.value;
  const settled = useMemo(() => new Settled(), []);
  useEffect(() => () => settled.end(), [settled]);
  const stale = desk.print.stale;
  const headline = facts ? printHeadline(facts) : '';
  useEffect(
    () => settled.offer(stale || !facts?.verdict ? null : headline),
    [settled, stale, headline, facts],
  );
  if (!facts) return null;
  const { sizes, drift, cautions, verdict } = facts;
  const again = sizes.some((size) => verdictWord(size) !== verdictWords[size.verdict]);
  return (
    <div class={`places${stale ? ' stale' : ''}`}>
      <p class="headline">
        {verdict && <PrintMark verdict={again ? 'close' : verdict} />}
        <strong>{headline}</strong>
        <span class="as-it-was" aria-hidden={!stale}>
          {stale ? 'as it was' : ''}
        </span>
      </p>
      {sizes.length > 0 && (
        <ul class="sizes">
          {sizes.map((size) => (
            <Place key={size.id} size={size} desk={desk} />
          ))}
        </ul>
      )}
      {drift !== null && (
        <p class="caution-line">
          <Mark verdict="caution" said /> {sentence(drift)}
        </p>
      )}
      {cautions.length > 0 && (
        <ul class="mind">
          {cautions.map((caution) => (
            <li key={caution} class="caution-line">
              <Mark verdict="caution" said />
              <span>{sentence(caution)}</span>
            </li>
          ))}
        </ul>
      )}
      <NextSteps desk={desk} facts={facts} />
      <p class="unseen" role="status">
        {settled.said.value}
      </p>
    </div>
  );
}

/** One place: mark and word, how it lies in its window, and under it what to do and why. */
function Place({ size, desk }: { readonly size: JudgedSize; readonly desk: TryDesk }) {
  const { id, name, verdict, print, machine, clearance, window, todo, why } = size;
  const { unit } = desk.reading;
  const shown = (value: number, u?: number) => figure(value, 'mm', unit, u);
  const filed = desk.print.facts.value?.record.reworked?.includes(id) === true;
  return (
    <li class={`place ${verdict}`}>
      <p class="word">
        <PrintMark verdict={markedAs(size)} /> {verdictWord(size)}
      </p>
      <p class="what">
        <b>{capital(name)}</b>
        <span class="numbers-said">
          print {shown(print.value, print.u)}, machine {shown(machine)}, clearance {shown(clearance.value)} ±{' '}
          {shown(2 * clearance.u)} {unit}, <span class="whole">{percent(clearance.inside)} inside</span>
        </span>
      </p>
      <WindowBar fit={{ clearance: clearance.value, u: clearance.u, window }} />
      {(todo !== '' || why !== '') && (
        <p class="todo">
          {todo !== '' && <b>{sentence(todo)}</b>} {why !== '' && sentence(why)}
        </p>
      )}
      {!size.stale && (
        <button
          type="button"
          class={verdict === 'rework' ? undefined : 'quiet'}
          aria-label={`${filed ? 'filed once more' : 'plastic came off'}: ${name}`}
          onClick={() => {
            desk.noteFiled([id], name);
            focusReading(id);
          }}
        >
          {filed ? 'filed once more' : 'plastic came off'}
        </button>
      )}
    </li>
  );
}
