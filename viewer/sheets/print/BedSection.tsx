import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { duration, significant } from '../../../src/output/words/index.ts';
import { formatNumber } from '../../../src/units/index.ts';
import { useBench } from '../../bench/bench.ts';
import type { BedFacts } from '../../spine/tasks/plate.ts';
import { MOST_OFF, quantityTyped } from '../../title/quantityTyped.ts';
import { Mark } from '../../verdict/Mark.tsx';
import { BedPicture } from './BedPicture.tsx';
import { bedDesk } from './bedDesk.ts';
import { printFindings } from './printFindings.ts';
import { refusalWords } from './TakeButton.tsx';

/** How the part lies, how much of the bed and of the evening it takes, and what to mind while it prints. */
export function BedSection() {
  const bench = useBench();
  const desk = bedDesk(bench);
  const bed = desk.facts.value;
  const refused = desk.refused.value;
  const result = bench.made.value?.result;
  return (
    <section class="lay" aria-labelledby="lay-head">
      <h2 id="lay-head">On the bed</h2>
      <div class={`lay-body${desk.stale.value ? ' stale' : ''}`}>
        {bed && <BedPicture bed={bed} />}
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
                <p key={problem.code}>{refusalWords(problem)}</p>
              ))}
              <p class="aside">The STL holds one of each; the 3MF waits until they fit.</p>
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
            </Fact>
          )}
          {bed && <Standing bed={bed} />}
          {result && <Support />}
        </dl>
      </div>
    </section>
  );
}

function Standing({ bed }: { readonly bed: BedFacts }) {
  const { used, spacing, turned, mass, minutes, method, kinds, tallestInside } = bed;
  const alike = kinds.every(({ height }) => Math.round(height) === Math.round(kinds[0]!.height));
  return (
    <>
      {kinds.length > 1 && (
        <Fact name="parts">
          <ol class="kinds">
            {kinds.map(({ name, count, height }) => (
              <li key={name}>
                {name}, {count} off, {formatNumber(height)} mm high
              </li>
            ))}
          </ol>
        </Fact>
      )}
      <Fact name="stand">
        {formatNumber(used[0])} × {formatNumber(used[1])} mm in the middle of the bed, at least {spacing} mm
        apart
        {turned > 0 && `; ${turned} turned`}
        {!alike &&
          (tallestInside ? '; tall ones inside' : '; so full that tall ones stand where there was room')}
      </Fact>
      <Fact name="take">
        {significant(mass)} g and about {duration(minutes)} in all <span class="aside">({method})</span>
      </Fact>
    </>
  );
}

/** Whether it prints without support, and what else the checks on printing say. */
function Support() {
  const bench = useBench();
  const result = bench.made.value!.result;
  const { mind, support } = printFindings(
    result.findings,
    result.parts.map(({ id }) => id).filter((id) => id !== ''),
  );
  return (
    <Fact name="support">
      {support
        ? 'see below: something hangs over nothing'
        : 'none: overhangs and bridges print clean as it lies'}
      {mind.map(({ number, finding: { title, because, remedy, verdict } }) => (
        <p key={number} class="mind">
          <Mark verdict={verdict} said />{' '}
          <button
            type="button"
            class="balloon"
            aria-pressed={bench.balloon.value === number}
            aria-label={`Finding ${number}, show where`}
            onClick={() => {
              bench.balloon.value = bench.balloon.value === number ? null : number;
            }}
          >
            {number}
          </button>{' '}
          {title}: {because}. {remedy}
        </p>
      ))}
    </Fact>
  );
}

/** How many to print; the title block has the same number. */
function Quantity() {
  const bench = useBench();
  const quantity = bench.job.value.quantity ?? 1;
  const [draft, setDraft] = useState<string | null>(null);
  const wrong = draft !== null && quantityTyped(draft) === null;
  const set = (to: number) => {
    setDraft(null);
    bench.change('quantity', (job) => ((job.quantity ?? 1) === to ? job : { ...job, quantity: to }), true);
  };
  return (
    <Fact name="off">
      <span class="stepper">
        <button
          type="button"
          aria-label="One fewer"
          aria-disabled={quantity <= 1}
          onClick={() => quantity > 1 && set(quantity - 1)}
        >
          −
        </button>
        <input
          type="text"
          inputMode="numeric"
          data-field="bed"
          aria-label="How many"
          autocomplete="off"
          value={draft ?? String(quantity)}
          aria-invalid={wrong ? true : undefined}
          aria-describedby={wrong ? 'off-wrong' : undefined}
          onInput={({ currentTarget: { value } }) => {
            const typed = quantityTyped(value);
            if (typed !== null) set(typed);
            setDraft(value);
          }}
          onBlur={() => setDraft(null)}
        />
        <button
          type="button"
          aria-label="One more"
          aria-disabled={quantity >= MOST_OFF}
          onClick={() => quantity < MOST_OFF && set(quantity + 1)}
        >
          +
        </button>
      </span>
      {wrong && (
        <span id="off-wrong" class="aside" role="alert">
          {' '}
          a whole number from 1 to {MOST_OFF}; still {quantity}
        </span>
      )}
    </Fact>
  );
}

export function Fact({ name, children }: { readonly name: string; readonly children: ComponentChildren }) {
  return (
    <div class="fact">
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}
