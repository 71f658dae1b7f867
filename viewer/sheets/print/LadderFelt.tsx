import { steppedOf } from '../../../src/fit/feltRecord.ts';
import type { LadderRecord } from '../../../src/job/schema.ts';
import { clearanceWindow, percent } from '../../../src/output/words/index.ts';
import { formatNumber } from '../../../src/units/index.ts';
import { useBench } from '../../bench/bench.ts';
import { useDrawer } from '../../drawer/drawer.ts';
import { Mark } from '../../verdict/Mark.tsx';
import { feltMarks, feltWord } from './feltMarks.ts';
import type { LadderDesk } from './ladderDesk.ts';

/** Steps are often a half of the usual last digit, and would look uneven, mm. */
const FINE = 0.01;

/** How the copies of a ladder felt on the machine, and what that comes to. */
export function LadderFelt({ desk, record }: { readonly desk: LadderDesk; readonly record: LadderRecord }) {
  const bench = useBench();
  const drawer = useDrawer();
  const stepped = steppedOf(record);
  const interfaces = bench.made.value?.result.interfaces ?? [];
  const nameOf = (id: string) =>
    desk.drawn.value?.names[id] ??
    interfaces.find((one) => one.id === id || one.id.endsWith(`.${id}`))?.name ??
    id;
  const marks = desk.marks.value;
  const judged = desk.judged.value;
  const middle = (record.rungs.length + 1) / 2;
  return (
    <section aria-labelledby="felt-head">
      <h3 id="felt-head">How did they feel?</h3>
      <div class="scroll">
        <table class="rung-table">
          <thead>
            <tr>
              <th scope="col">number</th>
              {stepped.map((id) => (
                <th key={id} scope="col">
                  {nameOf(id)}: clearance, <span class="aside">drawn, mm</span>
                </th>
              ))}
              <th scope="col">felt too tight, right, too loose, best of all</th>
            </tr>
          </thead>
          <tbody>
            {record.rungs.map(({ clearance, drawn }, k) => {
              const number = k + 1;
              const note =
                number === 1
                  ? 'tightest'
                  : number === record.rungs.length
                    ? 'loosest'
                    : number === middle
                      ? 'as the part'
                      : '';
              return (
                <tr key={number} class={marks[k]}>
                  <th scope="row">
                    <span class="rung">{number}</span> <span class="aside">{note}</span>
                  </th>
                  {stepped.map((id) => (
                    <td key={id}>
                      {formatNumber(clearance[id]!, FINE)}{' '}
                      <span class="aside">{formatNumber(drawn[id]!)}</span>
                    </td>
                  ))}
                  <td>
                    <fieldset class="felt">
                      <legend class="unseen">Number {number}</legend>
                      {feltMarks.map((mark) => (
                        <label key={mark} class={mark}>
                          <input
                            type="radio"
                            name={`rung-${number}`}
                            checked={marks[k] === mark}
                            onChange={() => desk.mark(k, mark)}
                          />
                          <span>{feltWord[mark]}</span>
                        </label>
                      ))}
                    </fieldset>
                  </td>
                </tr>
              );
            })}
            <tr class="wanted">
              <th scope="row">wanted</th>
              {stepped.map((id) => {
                const [lo, hi] = record.window[id]!;
                return (
                  <td key={id}>
                    {clearanceWindow([lo ?? Number.NEGATIVE_INFINITY, hi ?? Number.POSITIVE_INFINITY])}
                  </td>
                );
              })}
              <td />
            </tr>
          </tbody>
        </table>
      </div>
      {judged && (
        <div class="judged" aria-live="polite">
          <p>
            {judged.spoken}: {judged.says}.
          </p>
          {judged.remarks.map((remark) => (
            <p key={remark} class="mind">
              {remark}
            </p>
          ))}
          <ul class="drawn-now">
            {judged.drawn.map(({ id, name, before, after }) => (
              <li key={id}>
                {name}, drawn {formatNumber(before)} → <strong>{formatNumber(after)}</strong> mm
              </li>
            ))}
          </ul>
          <p class="aside">{judged.printer}.</p>
          <div class="put-in">
            <p class="chances">
              <span class="label">fits first time</span>{' '}
              <span class="before">{percent(judged.chance.before)}</span> <span aria-hidden="true">→</span>
              <span class="unseen">, then</span> <strong>{percent(judged.chance.after)}</strong>
            </p>
            <p role="status">
              {desk.isIn.value ? (
                <>
                  <Mark verdict="holds" /> in the job
                </>
              ) : (
                <button type="button" class="main" onClick={() => void desk.putIn(drawer)}>
                  draw the job by it
                </button>
              )}
            </p>
          </div>
        </div>
      )}
      {!judged && record.felt && desk.isIn.value && (
        <p>
          <Mark verdict="holds" /> The job is drawn by this.
        </p>
      )}
    </section>
  );
}
