import { spokenWord } from '../../../src/job/inspection/feltWord.ts';
import type { TrialRecord } from '../../../src/job/trialSchema.ts';
import { day } from '../../../src/output/words/index.ts';
import { capital } from '../measure/capital.ts';
import { figure } from '../measure/figures.ts';
import type { TryDesk } from './tryDesk.ts';

/** Every print on record, the first one first, as it was said; never written over. */
export function PrintsOnRecord({ desk }: { readonly desk: TryDesk }) {
  const trials = (desk.bench.job.value.trials ?? []) as readonly TrialRecord[];
  if (trials.length === 0) return null;
  return (
    <section class="prints" aria-labelledby="prints-on-record">
      <h2 id="prints-on-record" tabIndex={-1} data-field="trials">
        Prints on record
      </h2>
      <ol>
        {trials.map((record, k) => (
          <li key={record.made + record.date} class="print">
            <OnePrint desk={desk} record={record} number={k + 1} last={k === trials.length - 1} />
          </li>
        ))}
      </ol>
    </section>
  );
}

function OnePrint({
  desk,
  record,
  number,
  last,
}: {
  readonly desk: TryDesk;
  readonly record: TrialRecord;
  readonly number: number;
  readonly last: boolean;
}) {
  const { date, made, printer, material, layer, sizes, inspected, reworked, felt, broken, note, learnt } =
    record;
  const places = new Map(desk.print.facts.value?.readings.map((place) => [place.id, place]));
  const nameOf = (id: string) => capital(places.get(id)?.name ?? id);
  const shown = (size: number) => figure(size, 'mm', desk.reading.unit);
  const told = felt === undefined ? 'not tried yet' : Object.keys(felt).length === 0 ? 'not tried' : 'tried';
  const hasAfter = Object.keys(inspected?.after ?? {}).length > 0;
  return (
    <details open={last}>
      <summary>
        <b>Print {number}</b> {day(date)} <span class="brief">{told}</span>
      </summary>
      <p class="tip">
        {material}, {printer}, layers of {layer} mm, made from <code>{made.slice(0, 8)}</code>
      </p>
      <div class="scrolls">
        <table>
          <thead>
            <tr>
              {['place', 'drawn', 'expected', 'read, as typed'].map((title) => (
                <th key={title} scope="col" class={title === 'drawn' || title === 'expected' ? 'number' : ''}>
                  {title}
                </th>
              ))}
              {hasAfter && <th scope="col">filed, then read</th>}
              <th scope="col">felt</th>
            </tr>
          </thead>
          <tbody>
            {Object.entries(sizes).map(([id, { drawn, predicted }]) => {
              const word = felt && Object.hasOwn(felt, id) ? felt[id] : undefined;
              const filed = reworked?.includes(id) ? 'filed' : '';
              const after =
                inspected?.after && Object.hasOwn(inspected.after, id) ? inspected.after[id] : undefined;
              return (
                <tr key={id}>
                  <th scope="row">{nameOf(id)}</th>
                  <td class="number">{shown(drawn)}</td>
                  <td class="number">{shown(predicted)}</td>
                  <td>
                    {(inspected?.readings[id] ?? []).join('  ')}
                    {!hasAfter && filed !== '' && ` (${filed})`}
                  </td>
                  {hasAfter && <td>{after?.join('  ') ?? filed}</td>}
                  <td>{word === undefined ? '' : spokenWord(word, places.get(id)?.kind ?? 'post')}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      <dl>
        {broken?.map((text) => (
          <div key={text}>
            <dt>broken</dt>
            <dd>{text}</dd>
          </div>
        ))}
        {note !== undefined && (
          <div>
            <dt>note</dt>
            <dd>{note}</dd>
          </div>
        )}
        {learnt !== undefined && (
          <div>
            <dt>printer</dt>
            <dd>{printer} has learnt from it</dd>
          </div>
        )}
      </dl>
      {last && felt !== undefined && (
        <button type="button" disabled={desk.busy.value} onClick={() => void desk.takeBack()}>
          take back what was said of it
        </button>
      )}
    </details>
  );
}
