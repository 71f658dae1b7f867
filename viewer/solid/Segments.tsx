import type { Signal } from '@preact/signals';
import { useId } from 'preact/hooks';

interface SegmentsProps<T extends string> {
  readonly legend: string;
  readonly value: Signal<T>;
  readonly options: readonly { readonly id: T; readonly name: string; readonly disabled?: boolean }[];
}

/** One of a few, side by side. */
export function Segments<T extends string>({ legend, value, options }: SegmentsProps<T>) {
  const group = useId();
  return (
    <fieldset class="segments">
      <legend>{legend}</legend>
      <div>
        {options.map(({ id, name, disabled = false }) => (
          <label key={id}>
            <input
              type="radio"
              name={group}
              checked={value.value === id}
              disabled={disabled}
              onChange={() => {
                value.value = id;
              }}
            />
            <span>{name}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
