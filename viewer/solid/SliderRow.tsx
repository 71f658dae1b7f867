import { useId } from 'preact/hooks';

interface SliderRowProps {
  readonly name: string;
  readonly choice: string;
  readonly options: readonly { readonly id: string; readonly name: string }[];
  readonly onChoose: (id: string) => void;
  readonly disabled?: boolean;
  /** Nothing to slide for some choices. */
  readonly slider: null | {
    readonly name: string;
    readonly steps: number;
    readonly value: number;
    /** What the place of the slider means. */
    readonly words: string;
    readonly onSlide: (value: number) => void;
  };
}

/** Something to choose, and a slider that goes through it. */
export function SliderRow({ name, choice, options, onChoose, disabled = false, slider }: SliderRowProps) {
  const id = useId();
  return (
    <div class="row slider-row">
      <label class="name" for={id}>
        {name}
      </label>
      <select
        id={id}
        value={choice}
        disabled={disabled}
        onChange={({ currentTarget: { value } }) => onChoose(value)}
      >
        {options.map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
      </select>
      {slider && (
        <>
          <input
            type="range"
            aria-label={slider.name}
            min={0}
            max={slider.steps}
            step={1}
            value={slider.value}
            aria-valuetext={slider.words}
            onInput={({ currentTarget: { value } }) => slider.onSlide(Number(value))}
          />
          <output>{slider.words}</output>
        </>
      )}
    </div>
  );
}
