import { useId, useState } from 'preact/hooks';
import { isDay } from './isDay.ts';

interface DayFieldProps {
  readonly label: string;
  /** The day that counts now, YYYY-MM-DD. */
  readonly day: string;
  /** Takes another day; blank for the usual one. */
  readonly take: (day: string) => void;
}

/** A day as it stands in files, YYYY-MM-DD. A browser's own field for days has an order of its own in each country. */
export function DayField({ label, day, take }: DayFieldProps) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const wrong = typed !== null && typed.trim() !== '' && !isDay(typed.trim());
  return (
    <span class="day">
      <label>
        <span class="label">{label}</span>{' '}
        <input
          type="text"
          autoComplete="off"
          spellcheck={false}
          maxLength={10}
          size={10}
          placeholder="YYYY-MM-DD"
          value={typed ?? day}
          data-own-undo
          aria-invalid={wrong ? true : undefined}
          aria-describedby={wrong ? id : undefined}
          onInput={({ currentTarget: { value } }) => {
            setTyped(value);
            const text = value.trim();
            if (text === '' || isDay(text)) take(text);
          }}
          onBlur={() => setTyped(null)}
        />
      </label>
      {wrong && (
        <span id={id} class="refused" role="alert">
          {' '}
          allowed: a date, YYYY-MM-DD; still {day}
        </span>
      )}
    </span>
  );
}
