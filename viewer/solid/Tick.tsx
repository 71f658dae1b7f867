import type { Signal } from '@preact/signals';

/** Something shown or not. */
export function Tick({ name, value }: { readonly name: string; readonly value: Signal<boolean> }) {
  return (
    <label class="tick">
      <input
        type="checkbox"
        checked={value.value}
        onChange={({ currentTarget: { checked } }) => {
          value.value = checked;
        }}
      />
      {name}
    </label>
  );
}
