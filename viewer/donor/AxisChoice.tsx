import { useId } from 'preact/hooks';
import type { RefitSheet } from '../../src/job/refitSheet.ts';
import { formatNumber } from '../../src/units/index.ts';
import type { RefitDesk } from './refitDesk.ts';
import { axisWords } from './words.ts';

/** Along which axis the part lies, and a turn about it. */
export function AxisChoice({ desk, sheet }: { readonly desk: RefitDesk; readonly sheet: RefitSheet }) {
  const group = useId();
  return (
    <div class="axis-choice">
      <fieldset>
        <legend>along</legend>
        {sheet.axes.map(({ name, was, now }, k) => (
          <label key={String(name)}>
            <input type="radio" name={group} checked={k === sheet.shown} onChange={() => desk.look(k)} />
            <span>
              {typeof name === 'string' ? <b>{name}</b> : <b>the slant {axisWords(name)}</b>}{' '}
              {formatNumber(now)}
              {Math.abs(now - was) > 0.005 && <small> was {formatNumber(was)}</small>}
            </span>
          </label>
        ))}
      </fieldset>
      <button
        type="button"
        class="plain"
        onClick={() => {
          desk.roll.value = (desk.roll.peek() + 1) % 4;
        }}
      >
        roll it a quarter
      </button>
    </div>
  );
}
