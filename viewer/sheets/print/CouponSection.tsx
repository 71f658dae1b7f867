import { useSignal } from '@preact/signals';
import type { Problem } from '../../../src/job/problem.ts';
import { useBench } from '../../bench/bench.ts';
import { useDrawer } from '../../drawer/drawer.ts';
import { FileButton } from '../../drawer/FileButton.tsx';
import { CouponAtHand } from './CouponAtHand.tsx';
import { CouponDrawing } from './CouponDrawing.tsx';
import { CouponFound } from './CouponFound.tsx';
import { type CouponDesk, couponDesk } from './couponDesk.ts';
import { DayField } from './DayField.tsx';
import { refusalWords } from './refusalWords.ts';
import { TakeButton } from './TakeButton.tsx';

/** The coupon of the job's printer: print it, measure it, know the printer. */
export function CouponSection() {
  const desk = couponDesk(useBench());
  const profile = desk.profile.value;
  return (
    <details
      class="coupon"
      open={desk.isOpen.value}
      onToggle={({ currentTarget: { open } }) => {
        desk.isOpen.value = open;
      }}
    >
      <summary data-field="coupon">
        <h2>Coupon</h2>
        <span class="aside">
          {profile?.calibrated
            ? 'the readings that the calibration rests on; print and measure it anew after a repair or with other filament'
            : 'a small print to measure: half an hour to print, ten minutes with the callipers'}
        </span>
      </summary>
      {profile === null ? (
        <p>First say which printer it is, above: the readings are about one printer and one filament.</p>
      ) : (
        <Body desk={desk} />
      )}
    </details>
  );
}

function Body({ desk }: { readonly desk: CouponDesk }) {
  const drawer = useDrawer();
  const facts = desk.facts.value;
  const { isOpen, profile } = desk;
  const problems = useSignal<readonly Problem[]>([]);
  const cleared = useSignal<(() => void) | null>(null);
  if (!isOpen.value) return null;
  if (desk.trouble.value.length > 0)
    return (
      <div role="alert">
        {desk.trouble.value.map((problem) => (
          <p key={problem.field} class="mind">
            {refusalWords(problem)}
          </p>
        ))}
      </div>
    );
  if (!facts) return <p class="waiting">drawing the coupon ...</p>;
  const { print, features } = facts;
  const { layer, firstLayer, lineWidth } = profile.value!;
  return (
    <>
      <div class="steps">
        <section aria-labelledby="coupon-print">
          <h3 id="coupon-print">Print it</h3>
          <p>
            As you print parts: layers of {layer} mm on a first one of {firstLayer} mm, lines of {lineWidth}{' '}
            mm; no brim, no support, 100 %, not turned. {print.mass.toFixed(1)} g, about {print.minutes} min{' '}
            <span class="aside">({print.method})</span>. Let it cool on the bed and lie for an hour.
          </p>
          <TakeButton label="Take the coupon: STL, picture and a form for paper" make={() => desk.files()}>
            coupon
          </TakeButton>
        </section>
        <section aria-labelledby="coupon-file">
          <h3 id="coupon-file">Measure it</h3>
          <p>
            Type what the callipers show where it stands on the drawing; Enter goes on. Use the callipers you
            measure the machine with: what they do to both cancels. {desk.read.value} of {features.length}{' '}
            features read.
          </p>
          <p class="deeds">
            <FileButton
              accept=".csv,.tsv,.txt,.json"
              take={async ([file]) => {
                cleared.value = null;
                if (file) problems.value = await desk.takeFile(file);
              }}
            >
              readings from a file
            </FileButton>
            {desk.read.value > 0 && (
              <button
                type="button"
                onClick={() => {
                  const before = desk.clear();
                  problems.value = [];
                  cleared.value = () => desk.restore(before);
                }}
              >
                start over
              </button>
            )}
            {cleared.value && (
              <button
                type="button"
                onClick={() => {
                  cleared.value?.();
                  cleared.value = null;
                }}
              >
                bring the readings back
              </button>
            )}
          </p>
          <p class="printed-on">
            <DayField
              label="printed on"
              day={desk.day.value}
              take={(day) => {
                desk.printed.value = day;
              }}
            />{' '}
            <span class="aside">as the profile will say</span>
          </p>
          {problems.value.length > 0 && (
            <ul class="refusals" role="alert">
              {problems.value.slice(0, 8).map((problem) => (
                <li key={`${problem.field} ${problem.value}`}>{refusalWords(problem)}</li>
              ))}
              {problems.value.length > 8 && <li>and {problems.value.length - 8} more; nothing was taken</li>}
            </ul>
          )}
          {desk.otherCallipers.value !== '' && (
            <p class="mind" role="status">
              {desk.otherCallipers.value}
            </p>
          )}
          {desk.unkept.value && (
            <p class="mind">This browser keeps nothing: the readings last as long as the page is open.</p>
          )}
        </section>
      </div>
      <CouponAtHand desk={desk} />
      <CouponDrawing desk={desk} />
      <CouponFound desk={desk} drawer={drawer} />
    </>
  );
}
