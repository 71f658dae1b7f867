import { useSignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import { useBench } from '../../bench/bench.ts';
import { Settled } from '../../verdict/settled.ts';
import { ScrewAnswered } from './ScrewAnswered.tsx';
import './screw.css';
import { type ScrewField, type ScrewTexts, screwRead } from './screwRead.ts';

const fields: readonly {
  readonly field: ScrewField;
  readonly label: string;
  readonly placeholder: string;
  readonly tip: string;
}[] = [
  {
    field: 'diameter',
    label: 'Outside diameter',
    placeholder: '',
    tip: 'Over the crests, at their widest.',
  },
  {
    field: 'threads',
    label: 'Threads counted',
    placeholder: '1',
    tip: 'Ten tell ten times as much as one; blank for one.',
  },
  { field: 'over', label: 'Length over them', placeholder: '', tip: 'From crest to crest.' },
];

/** Callipers with a cable press Enter after each number: on to the next field, and from the last to the first. */
function toNext(field: ScrewField): void {
  const next = fields[(fields.findIndex((one) => one.field === field) + 1) % fields.length]!;
  const input = document.getElementById(`screw-${next.field}`);
  if (input instanceof HTMLInputElement) {
    input.focus();
    input.select();
  }
}

/** Rest after which a text that is none is said to be so, ms. */
const REST = 700;

/** Diameter and pitch of a screw, and what follows from them with every key. */
export default function ScrewForm() {
  const unit = useBench().job.value.unit ?? 'mm';
  const texts = useSignal<ScrewTexts>({ diameter: '', threads: '', over: '' });
  const rested = useSignal(true);
  const settled = useMemo(() => new Settled(), []);
  const answer = screwRead(texts.value, unit);
  const wrong = answer && 'wrong' in answer && rested.value ? answer.wrong : {};
  useEffect(() => {
    const pause = setTimeout(() => {
      rested.value = true;
    }, REST);
    return () => clearTimeout(pause);
  }, [texts.value, rested]);
  useEffect(() => () => settled.end(), [settled]);
  const { likeliest, doubt } = answer && 'told' in answer ? answer.told : { likeliest: null, doubt: '' };
  useEffect(
    () =>
      settled.offer(likeliest ? `Most likely ${likeliest.designation}, ${likeliest.likely}` : doubt || null),
    [settled, likeliest?.designation, likeliest?.likely, doubt],
  );
  return (
    <>
      <div class="settings">
        {fields.map(({ field, label, placeholder, tip }) => (
          <div key={field} class="setting">
            <label for={`screw-${field}`}>{label}</label>
            <span class="entry">
              <input
                id={`screw-${field}`}
                type="text"
                inputMode={unit === 'in' && field !== 'threads' ? 'text' : 'decimal'}
                autoComplete="off"
                spellcheck={false}
                maxLength={40}
                placeholder={placeholder}
                value={texts.value[field]}
                aria-invalid={wrong[field] === undefined ? undefined : true}
                aria-describedby={`screw-${field}-tip`}
                data-own-undo
                onKeyDown={(event) => {
                  if (event.key !== 'Enter' || event.isComposing) return;
                  event.preventDefault();
                  rested.value = true;
                  toNext(field);
                }}
                onInput={({ currentTarget: { value } }) => {
                  rested.value = false;
                  texts.value = { ...texts.value, [field]: value };
                }}
              />
              {field !== 'threads' && <span class="unit">{unit}</span>}
            </span>
            <span id={`screw-${field}-tip`} class="tip" aria-live="polite">
              {wrong[field] !== undefined && <strong class="refused">{wrong[field]}. </strong>}
              {tip}
            </span>
          </div>
        ))}
      </div>
      {answer && 'told' in answer && <ScrewAnswered told={answer.told} />}
      <p class="unseen" role="status">
        {settled.said.value}
      </p>
    </>
  );
}
