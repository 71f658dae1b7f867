/** A choice among a few words, all of them in sight. `group` is the name of its radio buttons, unlike any other's. */
export function Options<T extends string>({
  group,
  field,
  name,
  options,
  chosen,
  pick,
  tip,
}: {
  readonly group: string;
  /** Its path in the job: `choices.post`. */
  readonly field: string;
  readonly name: string;
  readonly options: readonly T[];
  readonly chosen: T;
  readonly pick: (option: T) => void;
  readonly tip: string;
}) {
  return (
    <fieldset class="setting choice">
      <legend>{name}</legend>
      <span class="entry">
        {options.map((option) => (
          <label key={option} class="option">
            <input
              type="radio"
              name={group}
              data-field={option === chosen ? field : undefined}
              checked={option === chosen}
              onChange={() => pick(option)}
            />
            {option}
          </label>
        ))}
      </span>
      <span class="tip">{tip}</span>
    </fieldset>
  );
}
