import { useSignal } from '@preact/signals';
import { day, percent } from '../../../src/output/words/index.ts';
import { knownFigures, parameterTold } from '../../../src/printer/parameterTold.ts';
import { printsAs } from '../../../src/printer/printsAs.ts';
import type { PrinterProfile } from '../../../src/printer/types.ts';
import { formatNumber } from '../../../src/units/index.ts';
import type { Drawer } from '../../drawer/drawer.ts';
import type { CalibrationFacts } from '../../spine/tasks/calibrate.ts';
import { Mark } from '../../verdict/Mark.tsx';
import type { CouponDesk } from './couponDesk.ts';
import { focusFeature } from './couponFocus.ts';
import { refusalWords } from './refusalWords.ts';

/** What the readings come to: doubtful ones first, then the printer before and now, then what that does for the job. */
export function CouponFound({ desk, drawer }: { readonly desk: CouponDesk; readonly drawer: Drawer }) {
  const found = desk.findings.found.value;
  const trouble = desk.findings.trouble.value;
  const takeBack = useSignal<(() => Promise<void>) | null>(null);
  if (trouble.length > 0)
    return (
      <ul class="refusals" role="alert">
        {trouble.map((problem) => (
          <li key={`${problem.field} ${problem.value}`}>{refusalWords(problem)}</li>
        ))}
      </ul>
    );
  if (!found)
    return (
      <p class="aside">From three features on the readings are worked out here; all of them tell most.</p>
    );
  const { report, chance } = found;
  const used = report.residuals.filter(({ leftOut }) => !leftOut).length;
  return (
    <section class={`come-to${desk.findings.stale.value ? ' stale' : ''}`} aria-labelledby="found-head">
      <h3 id="found-head">
        What {used} of {desk.facts.value?.features.length} features tell
      </h3>
      <Doubtful found={found} />
      <Parameters found={found} />
      <Meaning profile={report.profile} />
      {report.remarks.map(({ sentence }) => (
        <p key={sentence} class="mind">
          {sentence}
        </p>
      ))}
      <div class="put-in">
        <p class="chances">
          <span class="label">fits first time</span> <Chances of={chance} isIn={desk.findings.isIn.value} />
        </p>
        <p class="deeds" role="status">
          {desk.findings.isIn.value ? (
            <>
              <Mark verdict="holds" /> in the job{' '}
              {drawer.keeper.keeping.value.kind === 'unkept' ? '' : 'and the drawer'}, calibrated{' '}
              {day(report.profile.calibrated ?? '')}
              {takeBack.value && (
                <button
                  type="button"
                  onClick={() => {
                    void takeBack.value?.();
                    takeBack.value = null;
                  }}
                >
                  take it back
                </button>
              )}
            </>
          ) : (
            <button
              type="button"
              class="main"
              aria-disabled={desk.findings.stale.value}
              onClick={async () => {
                if (!desk.findings.stale.peek()) takeBack.value = await desk.findings.putIn(drawer);
              }}
            >
              draw the job for this printer
            </button>
          )}
        </p>
      </div>
    </section>
  );
}

/** Before and after; only after where the job is drawn so already. */
function Chances({
  of: { before, after },
  isIn,
}: {
  readonly of: CalibrationFacts['chance'];
  readonly isIn: boolean;
}) {
  if (after === null) return <>said once the job has its readings</>;
  return (
    <>
      {!isIn && before !== null && (
        <>
          <span class="before">{percent(before)}</span> <span aria-hidden="true">→</span>
          <span class="unseen">, then</span>{' '}
        </>
      )}
      <strong>{percent(after)}</strong>
    </>
  );
}

/** Readings that do not fit, each with the slip that would explain it, and the way to its field. */
function Doubtful({ found: { report } }: { readonly found: CalibrationFacts }) {
  if (report.doubtful.length === 0)
    return (
      <p>
        <Mark verdict="holds" /> Every reading fits the picture.
      </p>
    );
  return (
    <ul class="doubtful-list">
      {report.doubtful.map(({ feature, number, sentence, leftOut }) => (
        <li key={`${feature} ${sentence}`}>
          <Mark verdict={leftOut ? 'fails' : 'caution'} />
          <span>{sentence}</span>
          <button type="button" aria-label={`Read ${number} again`} onClick={() => focusFeature(feature)}>
            read again
          </button>
        </li>
      ))}
    </ul>
  );
}

function Parameters({ found: { report, undetermined } }: { readonly found: CalibrationFacts }) {
  return (
    <table class="parameters">
      <thead>
        <tr>
          <th scope="col">the printer</th>
          <th scope="col">taken for</th>
          <th scope="col">found</th>
          <th scope="col">
            <span class="unseen">how well</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {report.parameters.map(({ parameter, prior, determined, ...known }) => {
          const unit = parameterTold[parameter].unit.replace('mm2', 'mm²');
          return (
            <tr key={parameter} class={determined ? undefined : 'undetermined'}>
              <th scope="row">
                {parameterTold[parameter].what} <span class="unit">{unit}</span>
              </th>
              <td>{knownFigures(parameter, prior).join(' ± ')}</td>
              <td>{knownFigures(parameter, known).join(' ± ')}</td>
              <td class="aside">{undetermined[parameter] ?? ''}</td>
            </tr>
          );
        })}
        <tr>
          <th scope="row">
            scatter from print to print <span class="unit">mm</span>
          </th>
          <td />
          <td>{formatNumber(report.profile.repeatability, report.profile.repeatability)}</td>
          <td class="aside">one standard deviation</td>
        </tr>
      </tbody>
    </table>
  );
}

/** What it means for sizes that people know. */
function Meaning({ profile }: { readonly profile: PrinterProfile }) {
  const direction = [1, 0, 0] as const;
  const sizes = (['bore', 'slot', 'post'] as const).map((kind) => {
    const { value, u } = printsAs(5, { kind, direction: [...direction] }, profile);
    return `${kind} ${formatNumber(value)} ± ${formatNumber(2 * u)}`;
  });
  return <p>So 5.00 drawn prints as {sizes.join(', ')} mm.</p>;
}
