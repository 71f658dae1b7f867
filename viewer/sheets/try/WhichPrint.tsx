import { DayField } from '../print/DayField.tsx';
import type { TryDesk } from './tryDesk.ts';
import { whichWords } from './tryWords.ts';

/** Which print is meant, and the way to another. */
export function WhichPrint({ desk }: { readonly desk: TryDesk }) {
  const { print } = desk;
  const facts = print.facts.value;
  if (!facts) return null;
  const { index, isNew, record } = facts;
  const go = (which: 'open' | 'again' | 'last') => () => {
    print.which.value = which;
  };
  const isLast = print.which.value === 'last' && record.felt !== undefined;
  return (
    <p class="which">
      <span>{whichWords(facts)}</span>
      {isNew && (
        <DayField
          label="printed on"
          day={print.asked().date}
          take={(day) => {
            print.day.value = day;
          }}
        />
      )}
      {isNew && index > 0 && (
        <button type="button" onClick={go('last')}>
          it is print {index} still
        </button>
      )}
      {!isNew && (
        <button type="button" onClick={go(isLast ? 'open' : 'again')}>
          another print
        </button>
      )}
    </p>
  );
}
