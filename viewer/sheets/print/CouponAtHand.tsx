import { formatNumber } from '../../../src/units/index.ts';
import { JawPicture } from '../measure/JawPicture.tsx';
import type { CouponDesk } from './couponDesk.ts';
import { focusFeature } from './couponFocus.ts';
import type { CouponRow } from './couponRows.ts';

/** The feature at hand, large enough for arm's length: which jaws go where, the numbers so far, what is doubtful. */
export function CouponAtHand({ desk }: { readonly desk: CouponDesk }) {
  const row = desk.row.value;
  if (!row) return null;
  const { feature, texts, refusals } = row;
  const { id, number, reading, tip, times, nominal } = feature;
  const draft = desk.typing.draft.value?.id === id ? desk.typing.draft.value : null;
  const wrong = draft?.rested && draft.text.trim() !== '' ? desk.typing.judged(draft.text) : null;
  return (
    <section class={`at-hand${draft ? ' typing' : ''}`} aria-label="Feature at hand">
      <JawPicture jaw={reading.jaw} round={reading.round ?? false} />
      <div class="what">
        <h3>
          <span class="ordinal">{number}</span> {reading.name}
        </h3>
        <p id="coupon-tip">
          {tip}. <span class="aside">Drawn {formatNumber(nominal)} mm.</span>
        </p>
      </div>
      <Readout row={row} typed={draft?.text ?? ''} />
      <div class="numbers-row">
        <ol class="numbers" aria-label="Numbers so far">
          {texts.map((text, k) => (
            // A number has no name but its place.
            <li key={`${k} ${text}`}>
              <button
                type="button"
                class={`number${refusals[k] === null ? '' : ' refused'}${draft?.slot === k ? ' picked' : ''}`}
                aria-label={`Correct number ${k + 1}, ${text}`}
                onClick={() => {
                  desk.typing.open(id, k);
                  focusFeature(id);
                }}
              >
                {text}
              </button>
            </li>
          ))}
          {Array.from({ length: Math.max(0, times - texts.length) }, (_, k) => (
            <li key={`wanting ${times - k}`} class="wanting" aria-hidden="true" />
          ))}
        </ol>
        <TakeBack desk={desk} />
      </div>
      <div id="coupon-doubt" class="doubts" aria-live="polite">
        {wrong !== null && <p class="refused">{`"${draft?.text.trim()}" ${wrong}`}</p>}
        {wrong === null && <DoubtOf desk={desk} feature={id} />}
      </div>
      <p class="unseen" role="status">
        {desk.typing.said.value}
      </p>
    </section>
  );
}

/** Takes back the last reading, of whichever feature; the job's own undo does not reach readings of a coupon. */
function TakeBack({ desk }: { readonly desk: CouponDesk }) {
  const what = desk.takesBack.value;
  return (
    // Not away while there is nothing: what is below it would move with the first number.
    <button
      type="button"
      class="take-back"
      aria-disabled={what === null}
      aria-keyshortcuts="Control+Z"
      title="Ctrl+Z in a field"
      onClick={() => what !== null && desk.takeBack()}
    >
      take back {what}
    </button>
  );
}

/** The mean of the numbers so far, or what is being typed. */
function Readout({ row: { values, feature }, typed }: { readonly row: CouponRow; readonly typed: string }) {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const off = mean - feature.nominal;
  return (
    <div class="readout">
      <span class={`big${typed === '' ? '' : ' typed'}`}>
        {typed !== '' ? typed : values.length > 0 ? formatNumber(mean) : '-'}{' '}
        <span class="unit">{typed === '' ? 'mm' : ''}</span>
      </span>
      {values.length > 0 && (
        <span class="small">
          mean {formatNumber(mean)},{' '}
          {Math.abs(off) < 0.005
            ? 'as drawn'
            : `${formatNumber(Math.abs(off))} ${off > 0 ? 'larger' : 'smaller'} than drawn`}
        </span>
      )}
    </div>
  );
}

/** What does not fit about the readings of a feature, once all are worked out. */
function DoubtOf({ desk, feature }: { readonly desk: CouponDesk; readonly feature: string }) {
  const doubtful = desk.findings.found.value?.report.doubtful.filter((one) => one.feature === feature) ?? [];
  if (desk.findings.stale.value) return null;
  return (
    <>
      {doubtful.map(({ sentence }) => (
        <p key={sentence} class="doubtful">
          {sentence}
        </p>
      ))}
    </>
  );
}
