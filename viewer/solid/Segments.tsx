import { useId } from 'preact/hooks';

interface SegmentsProps<T extends string> {
  readonly legend: string;
  readonly value: T;
  readonly options: readonly { readonly id: T; readonly name: string }[];
  readonly onChoose: (id: T) => void;
}

/** One of a few, side by side. */
export function Segments<T extends string>({ legend, value, options, onChoose }: SegmentsProps<T>) {
  const group = useId();
  return (
    <div class="segments" role="radiogroup" aria-labelledby={`${group}-of`}>
      <span class="name" id={`${group}-of`}>
        {legend}
      </span>
      {options.map(({ id, name }) => (
        <label key={id}>
          <input type="radio" name={group} checked={value === id} onChange={() => onChoose(id)} />
          <span>{name}</span>
        </label>
      ))}
    </div>
  );
}
