import { useEffect, useRef } from 'preact/hooks';
import { materialNames } from '../../src/standards/materials.ts';
import { useBench } from '../bench/bench.ts';
import { materialWords } from './materialWords.ts';

/** The materials to print with, each with a word on it. Part of the title block; nothing is in front of anything. */
export default function MaterialPanel({ close }: { readonly close: () => void }) {
  const bench = useBench();
  const panel = useRef<HTMLFieldSetElement>(null);
  const chosen = bench.job.value.material ?? 'PLA';
  useEffect(() => panel.current?.querySelector<HTMLInputElement>('input:checked, input')?.focus(), []);
  const leave = () => {
    close();
    document.querySelector<HTMLElement>('[data-field="material"]')?.focus();
  };
  return (
    <fieldset
      class="materials"
      ref={panel}
      onKeyDown={({ key }) => {
        if (key === 'Escape' || key === 'Enter') leave();
      }}
    >
      <legend>Material</legend>
      {materialNames.map((name) => {
        const { character, numbers } = materialWords(name);
        return (
          <label key={name}>
            <input
              type="radio"
              name="material"
              value={name}
              checked={chosen === name}
              onChange={() => bench.change('material', (job) => ({ ...job, material: name }))}
            />
            <span>
              <b>{name}</b> <span class="numbers">{numbers}</span>
              <span class="character">{character}</span>
            </span>
          </label>
        );
      })}
      <button type="button" onClick={leave}>
        done
      </button>
    </fieldset>
  );
}
