import type { Problem } from '../../../src/job/problem.ts';
import { leadTo } from '../../verdict/leadTo.ts';
import { problemWords } from '../../verdict/problemWords.ts';
import { CurrentReading } from '../measure/CurrentReading.tsx';
import { FormSheet } from '../measure/FormSheet.tsx';
import { figure } from '../measure/figures.ts';
import '../measure/measure.css';
import { PrintMark } from './PrintMark.tsx';
import type { TryDesk } from './tryDesk.ts';
import { markedAs, shouldRead, verdictWord } from './tryWords.ts';

/** The drawing of the print with a field on each size to be read of it; what it should be stands in brackets, as a size for
 *  reference does (ISO 129-1), until something is read. */
export function PrintReadings({ desk }: { readonly desk: TryDesk }) {
  const { reading, print } = desk;
  const facts = print.facts.value;
  const [problem] = print.trouble.value;
  const places = new Map(facts?.readings.map((place) => [place.id, place]));
  const sizes = new Map(facts?.sizes.map((size) => [size.id, size]));
  const now = reading.row.value;
  const place = now && places.get(now.facts.id);
  const before = place && (facts?.record.inspected?.readings[place.id] ?? []);
  const filed = place !== undefined && facts?.record.reworked?.includes(place?.id ?? '') === true;
  return (
    <>
      <FormSheet
        desk={reading}
        waiting={problem ? <Hindrance desk={desk} problem={problem} /> : 'laying out the sheet ...'}
        aside={(id) => {
          const expected = places.get(id)?.expected;
          const size = sizes.get(id);
          return {
            hint: expected === undefined ? '' : `(${figure(expected, 'mm', reading.unit)})`,
            mark: size && <PrintMark verdict={markedAs(size)} />,
            word: size ? verdictWord(size) : '',
          };
        }}
      />
      <CurrentReading desk={reading}>
        {place && (
          <b class="should">
            {shouldRead(place, reading.unit)}
            {filed && before && before.length > 0 && `; before plastic came off it read ${before.join(', ')}`}
          </b>
        )}
      </CurrentReading>
    </>
  );
}

/** Why there is nothing to read, and the way to where that is put right. */
function Hindrance({ desk, problem }: { readonly desk: TryDesk; readonly problem: Problem }) {
  const { name, what } = problemWords(problem);
  return (
    <>
      Nothing can be said of a print yet: {name} {what}.{' '}
      <button type="button" onClick={() => leadTo(desk.bench, problem.field)}>
        put it right
      </button>
    </>
  );
}
