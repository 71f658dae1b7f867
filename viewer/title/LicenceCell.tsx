import { useEffect, useState } from 'preact/hooks';
import type { Problem } from '../../src/job/problem.ts';
import { useBench } from '../bench/bench.ts';
import { withText } from './withText.ts';

/** Rest after which terms are looked up, ms: half a word is in no list. */
const REST = 500;

/** What the list says of a text. */
type Looked = { readonly licence: string } | Problem;

/** Terms on which the files may be used, held to the list of SPDX. What is not in it stays as typed, marked, and the near
 *  one is offered. */
export function LicenceCell() {
  const bench = useBench();
  const text = bench.job.value.licence ?? '';
  const [looked, setLooked] = useState<{ readonly of: string; readonly as: Looked } | null>(null);
  useEffect(() => {
    if (text.trim() === '') return;
    let current = true;
    const timer = setTimeout(() => {
      bench.spine
        .ask('the licence', (spine) => spine.licence(text))
        .then(
          (as) => current && setLooked({ of: text, as }),
          // The strip of the worker says what broke.
          () => {},
        );
    }, REST);
    return () => {
      current = false;
      clearTimeout(timer);
    };
  }, [text]);
  const set = (to: string, joined: boolean) =>
    bench.change('licence', (job) => withText(job, 'licence', to), joined);
  const known = looked !== null && looked.of === text && text.trim() !== '' ? looked.as : null;
  const near = known && 'allowed' in known ? /Did you mean (.+)\?$/.exec(known.allowed)?.[1] : undefined;
  return (
    <div class={`cell licence${known && 'allowed' in known ? ' wrong' : ''}`}>
      <label>
        <span class="label">licence</span>
        <input
          type="text"
          data-field="licence"
          autocomplete="off"
          spellcheck={false}
          maxLength={200}
          placeholder="terms not said"
          value={text}
          aria-invalid={known !== null && 'allowed' in known}
          aria-describedby="licence-looked"
          onInput={({ currentTarget: { value } }) => set(value, true)}
          onBlur={() => {
            if (known && 'licence' in known) set(known.licence, true);
          }}
        />
      </label>
      <small id="licence-looked" aria-live="polite">
        {known && 'allowed' in known && (
          <>
            {known.reason ?? 'is not known'}; such as CC-BY-4.0, CC-BY-SA-4.0, CC0-1.0, MIT.
            {near !== undefined && (
              <button type="button" class="way" onClick={() => set(near, false)}>
                take {near}
              </button>
            )}
          </>
        )}
        {known && 'licence' in known && known.licence !== text && `as ${known.licence}`}
      </small>
    </div>
  );
}
