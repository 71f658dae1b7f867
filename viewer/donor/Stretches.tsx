import type { RefitSheet } from '../../src/job/refitSheet.ts';
import { formatNumber } from '../../src/units/index.ts';
import { Mark } from '../verdict/Mark.tsx';
import { problemWords } from '../verdict/problemWords.ts';
import { LengthField } from './LengthField.tsx';
import { isFree, type RefitDesk, sharers } from './refitDesk.ts';
import { alongWords, stretchNames } from './words.ts';

/** The lengths along the axis shown, to type: over all, and of each stretch that can change. */
export function Stretches({ desk, sheet }: { readonly desk: RefitDesk; readonly sheet: RefitSheet }) {
  const { axes, shown, spans, mirror } = sheet;
  const line = axes[shown]!;
  const names = stretchNames(spans);
  const draft = desk.draft.value;
  const refused = desk.refused.value;
  const lopsided = desk.bench.job.value.donor?.lopsided === true;
  const long = line.now + (draft ? draft.by * sharers(sheet, draft.span) : 0);
  const stuck = spans.some((span) => !isFree(sheet, span));
  return (
    <>
      <ul class="stretches">
        <li class="over-all">
          <LengthField
            desk={desk}
            label="over all"
            said={`Length over all ${alongWords(line.axis)}`}
            now={long}
            least={0}
            set={(mm) => desk.whole(mm - line.now)}
          />
          <span class="tip">
            {Math.abs(long - line.was) > 0.005 ? `${formatNumber(line.was)} in the model` : 'as in the model'}
          </span>
        </li>
        {spans.map((span, k) => {
          const name = names.get(k);
          const { length, was, available, area, partner, longer, distorts } = span;
          // A mirror image changes with its twin and has no row of its own.
          if (name === undefined || (partner !== null && partner < k)) return null;
          const pair = partner !== null && partner !== k ? `, ${names.get(partner) ?? ''}` : '';
          const free = isFree(sheet, span);
          return (
            <li key={name}>
              {free ? (
                <LengthField
                  desk={desk}
                  label={
                    <>
                      <b class="letter">{name}</b>
                      {pair && <b class="letter">{pair.slice(2)}</b>}
                    </>
                  }
                  said={`Length of stretch ${name}${pair} ${alongWords(line.axis)}`}
                  now={length + (draft && (draft.span === k || draft.span === partner) ? draft.by : 0)}
                  least={length - available}
                  set={(mm) => desk.stretch(k, mm - length)}
                />
              ) : (
                <span class="length-field">
                  <b class="letter">{name}</b> {formatNumber(length)} <small>mm</small>
                </span>
              )}
              <span class="tip">
                {!free && 'has no mirror image, so it stays; '}
                {Math.abs(length - was) > 0.005 && `${formatNumber(was)} in the model; `}
                {free && `can lose ${formatNumber(available)}; `}
                section {formatNumber(area)} mm²
                {longer.length > 0 && `; ${longer.join(', ')} with it`}
                {distorts.length > 0 && (
                  <>
                    ; <Mark verdict="caution" /> {distorts.join(', ')} would be no longer round
                  </>
                )}
              </span>
              {Math.abs(length - was) > 0.005 && (
                <button type="button" class="plain" onClick={() => desk.stretch(k, was - length)}>
                  as in the model
                </button>
              )}
            </li>
          );
        })}
      </ul>
      {refused.map((problem) => {
        const { what, wanted } = problemWords(problem);
        return (
          <p class="refused" role="alert" key={problem.code}>
            {what}. Wanted: {wanted}.
          </p>
        );
      })}
      {spans.length === 0 && (
        <p>
          No stretch {alongWords(line.axis)} keeps its section. A length typed over all is still possible,
          with a trace: the ways there are will be offered.
        </p>
      )}
      {spans.length > names.size && (
        <p class="tip">
          {spans.length - names.size} more{' '}
          {spans.length - names.size === 1 ? 'stretch has' : 'stretches have'} no letter: shorter, or amid
          what is round.
        </p>
      )}
      {(mirror !== null || lopsided || stuck) && (
        <label class="tick">
          <input
            type="checkbox"
            checked={!lopsided}
            onChange={({ currentTarget: { checked } }) => desk.setLopsided(!checked)}
          />
          <span>
            keep both sides alike{lopsided ? '' : '; stretches change together with their mirror image'}
          </span>
        </label>
      )}
    </>
  );
}
