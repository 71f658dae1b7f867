import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { questions } from '../../../src/job/printerQuestions.ts';
import { profileText } from '../../../src/printer/profileText.ts';
import type { PrinterProfile } from '../../../src/printer/types.ts';
import { materialNames } from '../../../src/standards/materials.ts';
import { useBench } from '../../bench/bench.ts';
import { useDrawer } from '../../drawer/drawer.ts';
import { withProfile } from '../../drawer/withProfile.ts';
import { answersOf, profileFrom, type QuestionKey, questionKeys, wrongAnswer } from './printerAnswers.ts';

/** The few questions about a printer, answered as usual from the start; `of` is the one to change, null for a new one. */
export function PrinterForm({ of, done }: { readonly of: PrinterProfile | null; readonly done: () => void }) {
  const bench = useBench();
  const drawer = useDrawer();
  const texts = useSignal(answersOf(of, bench.job.peek().material ?? 'PLA'));
  const touched = useSignal<ReadonlySet<QuestionKey>>(new Set());
  const first = useRef<HTMLInputElement>(null);
  useEffect(() => first.current?.focus(), []);
  const profile = profileFrom(texts.value, of);
  const forgets = of !== null && of.calibrated !== null && profile !== null && profile.calibrated === null;
  const set = (key: QuestionKey, text: string) => {
    texts.value = { ...texts.value, [key]: text };
  };
  const keep = () => {
    if (profile === null) {
      touched.value = new Set(questionKeys);
      const wrong = questionKeys.find((key) => wrongAnswer(key, texts.value[key]) !== null);
      document.getElementById(`printer-${wrong}`)?.focus();
      return;
    }
    const id = of && drawer.printers.peek().find((one) => profileText(one.profile) === profileText(of))?.id;
    bench.change(of ? 'printer changed' : 'printer', (job) => withProfile(job, profile));
    void drawer.keepPrinter(profile, Date.now(), id ?? undefined);
    done();
  };
  return (
    <form
      class="printer-form"
      aria-label={of ? `Printer ${of.name}` : 'New printer'}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        done();
      }}
    >
      {questionKeys.map((key, k) => {
        const wrong = touched.value.has(key) ? wrongAnswer(key, texts.value[key]) : null;
        const common = {
          id: `printer-${key}`,
          value: texts.value[key],
          'aria-describedby': `printer-${key}-hint`,
          'aria-invalid': wrong === null ? undefined : true,
        } as const;
        return (
          <div key={key} class={wrong === null ? 'ask' : 'ask wrong'}>
            <label for={`printer-${key}`}>
              {questions[key].ask}
              {key === 'name' || key === 'material' ? '' : ', mm'}
            </label>
            {key === 'material' ? (
              <select {...common} onChange={({ currentTarget: { value } }) => set(key, value)}>
                {materialNames.map((name) => (
                  <option key={name}>{name}</option>
                ))}
              </select>
            ) : (
              <input
                {...common}
                ref={k === 0 ? first : null}
                type="text"
                autocomplete="off"
                spellcheck={false}
                maxLength={100}
                inputMode={key === 'name' || key === 'bed' ? 'text' : 'decimal'}
                onInput={({ currentTarget: { value } }) => set(key, value)}
                onBlur={() => {
                  touched.value = new Set([...touched.value, key]);
                }}
              />
            )}
            <small id={`printer-${key}-hint`} role={wrong === null ? undefined : 'alert'}>
              {wrong ?? (key === 'material' ? 'filament the profile is for' : questions[key].hint)}
            </small>
          </div>
        );
      })}
      {forgets && (
        <p class="mind" role="status">
          With other lines, layers or filament the coupon no longer speaks of this printer: it starts as one
          nobody has measured. Undo brings the old one back into the job.
        </p>
      )}
      <p class="deeds">
        <button type="submit" class="main">
          {of ? 'change it' : 'draw the job for it'}
        </button>
        <button type="button" onClick={done}>
          leave it
        </button>
      </p>
    </form>
  );
}
