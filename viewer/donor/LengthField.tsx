import type { ComponentChildren } from 'preact';
import { useId, useState } from 'preact/hooks';
import { formatNumber, parseLength } from '../../src/units/index.ts';
import type { RefitDesk } from './refitDesk.ts';

interface LengthFieldProps {
  readonly desk: RefitDesk;
  readonly label: ComponentChildren;
  /** What a screen reader says in its place. */
  readonly said: string;
  /** mm. */
  readonly now: number;
  /** It cannot be shorter than this, mm. */
  readonly least: number;
  readonly set: (mm: number) => void;
}

/** A length of the part to type over; it counts with Enter, or when the field is left. */
export function LengthField({ desk, label, said, now, least, set }: LengthFieldProps) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const unit = desk.bench.job.value.unit ?? 'mm';
  const settle = (text: string): void => {
    const parsed = parseLength(text, unit, { sign: 'positive' });
    // A hair below the least is what rounding on the screen took off.
    const fault = !parsed.ok
      ? `${parsed.reason}; allowed: ${parsed.allowed}`
      : parsed.mm < least - 0.005
        ? `no shorter than ${formatNumber(Math.ceil(100 * least) / 100)} mm here`
        : null;
    setWrong(fault);
    if (fault !== null || !parsed.ok) return;
    setTyped(null);
    if (Math.abs(parsed.mm - now) > 0.005) set(Math.max(parsed.mm, least));
  };
  return (
    <span class="length-field">
      <label for={id} aria-label={said}>
        {label}
      </label>
      <input
        id={id}
        type="text"
        inputMode="decimal"
        autoComplete="off"
        spellcheck={false}
        maxLength={40}
        aria-label={said}
        aria-invalid={wrong !== null || undefined}
        aria-describedby={wrong === null ? undefined : `${id}-wrong`}
        value={typed ?? formatNumber(now)}
        readOnly={desk.busy.value}
        onFocus={({ currentTarget }) => currentTarget.select()}
        onInput={({ currentTarget: { value } }) => setTyped(value)}
        onKeyDown={(event) => {
          if (event.key === 'Enter' && typed !== null) settle(typed);
          if (event.key !== 'Escape') return;
          setTyped(null);
          setWrong(null);
        }}
        onBlur={() => {
          if (typed !== null) settle(typed);
        }}
      />{' '}
      <small>mm</small>
      {wrong !== null && (
        <strong class="refused" id={`${id}-wrong`}>
          {wrong}
        </strong>
      )}
    </span>
  );
}
