import { useBench } from '../../bench/bench.ts';
import { Mark } from '../../verdict/Mark.tsx';
import { Fact } from './Fact.tsx';
import { printFindings } from './printFindings.ts';

/** Whether it prints without support, and what else the checks on printing say. */
export function Support() {
  const bench = useBench();
  const result = bench.made.value!.result;
  const { mind, support } = printFindings(
    result.findings,
    result.parts.map(({ id }) => id).filter((id) => id !== ''),
  );
  return (
    <Fact name="support">
      {support
        ? 'see below: something hangs over nothing'
        : 'none: overhangs and bridges print clean as it lies'}
      {mind.map(({ number, finding: { title, because, remedy, verdict } }) => (
        <p key={number} class="mind">
          <Mark verdict={verdict} said />{' '}
          <button
            type="button"
            class="balloon"
            aria-pressed={bench.balloon.value === number}
            aria-label={`Finding ${number}, show where`}
            onClick={() => {
              bench.balloon.value = bench.balloon.value === number ? null : number;
            }}
          >
            {number}
          </button>{' '}
          {title}: {because}. {remedy}
        </p>
      ))}
    </Fact>
  );
}
