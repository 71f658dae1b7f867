import type { RefitSheet, ShownChange } from '../../src/job/refitSheet.ts';
import { Mark } from '../verdict/Mark.tsx';
import type { RefitDesk } from './refitDesk.ts';
import { alongWords, byWords, featureWords, mismatchWords } from './words.ts';

/** What is changed, how, and what else could be done; what nobody has chosen a way for first asks for one. */
export function Changes({ desk, sheet }: { readonly desk: RefitDesk; readonly sheet: RefitSheet }) {
  const { changes } = sheet;
  if (changes.length === 0) return null;
  return (
    <section aria-label="What is changed" data-field="donor.changes" tabIndex={-1}>
      <h2>Changed</h2>
      <ol class="changes">
        {changes.map((change, k) => (
          <li key={`${change.of}`}>
            <Change desk={desk} change={change} index={k} />
          </li>
        ))}
      </ol>
    </section>
  );
}

interface ChangeProps {
  readonly desk: RefitDesk;
  readonly change: ShownChange;
  readonly index: number;
}

function Change({ desk, change, index }: ChangeProps) {
  const { axis, by, taken, ways, of } = change;
  const way = taken === null ? undefined : ways[taken];
  const asked = typeof of === 'number' ? '' : ', as the reading of its length asks';
  return (
    <>
      <p class="done">
        <Mark verdict={way ? (way.exact ? 'holds' : 'caution') : 'open'} />
        <span>
          <strong>
            {byWords(by)} {alongWords(axis)}
          </strong>
          {asked}
          {way ? (
            <>
              : {way.because}; <span class="mismatch">{mismatchWords(way)}</span>
              {featureWords(way).map((words) => `; ${words}`)}
            </>
          ) : ways.length === 0 ? (
            ': no stretch of the part can take that up'
          ) : (
            ': no way leaves no trace. Choose one'
          )}
          .
        </span>
        {typeof of === 'number' && (
          <button type="button" class="plain" onClick={() => desk.undo(change)}>
            take it back
          </button>
        )}
      </p>
      {way ? (
        ways.length > 1 && (
          <details>
            <summary>
              {ways.length - 1} other {ways.length === 2 ? 'way' : 'ways'}
            </summary>
            <Ways desk={desk} change={change} index={index} />
          </details>
        )
      ) : (
        <Ways desk={desk} change={change} index={index} />
      )}
    </>
  );
}

function Ways({ desk, change, index }: ChangeProps) {
  const { lit } = desk;
  return (
    <ol class="ways">
      {change.ways.map((way, k) => {
        const point = () => {
          lit.value = { change: index, way: k };
        };
        const unpoint = () => {
          lit.value = null;
        };
        return (
          <li key={way.because} onPointerEnter={point} onPointerLeave={unpoint}>
            <Mark verdict={way.exact ? 'holds' : 'caution'} />
            <span>
              {way.because}; <span class="mismatch">{mismatchWords(way)}</span>
              {featureWords(way).map((words) => `; ${words}`)}
              {way.keepsSymmetry === false &&
                !way.because.includes('alike') &&
                '; both sides are no longer alike'}
            </span>
            {k === change.taken ? (
              <span class="tip">taken</span>
            ) : (
              <button
                type="button"
                aria-label={`Take: ${way.because}`}
                onFocus={point}
                onBlur={unpoint}
                onClick={() => desk.take(change, k)}
              >
                take
              </button>
            )}
          </li>
        );
      })}
    </ol>
  );
}
