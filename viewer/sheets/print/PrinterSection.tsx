import { useSignal } from '@preact/signals';
import { day, percent } from '../../../src/output/words/index.ts';
import { knownFigures, parameterTold } from '../../../src/printer/parameterTold.ts';
import { profileText } from '../../../src/printer/profileText.ts';
import type { PrinterProfile } from '../../../src/printer/types.ts';
import { formatNumber } from '../../../src/units/index.ts';
import { useBench } from '../../bench/bench.ts';
import { useDrawer } from '../../drawer/drawer.ts';
import { Fact } from './Fact.tsx';
import { PrinterForm } from './PrinterForm.tsx';
import { parameterPicture } from './parameterPicture.ts';
import { knownWord, type ParameterLine, parameterLines, profileOf } from './profileOf.ts';

/** Which printer the job is drawn for, what is known of it and how well. */
export function PrinterSection() {
  const bench = useBench();
  const drawer = useDrawer();
  const job = bench.job.value;
  const profile = profileOf(job);
  const form = useSignal<'none' | 'new' | 'edit'>('none');
  const text = profile && profileText(profile);
  const shelf = drawer.printers.value.filter(({ thrown }) => thrown === undefined);
  const lies = shelf.find(({ profile: one }) => profileText(one) === text);
  return (
    <section class="printer" aria-labelledby="printer-head">
      <h2 id="printer-head">Printer and material</h2>
      <div class="choose">
        <label>
          <span class="label">drawn for</span>
          <select
            data-field="printer"
            value={lies?.id ?? (profile ? 'job' : 'none')}
            onChange={({ currentTarget: { value } }) => {
              if (value === 'job') return;
              drawer.usePrinter(shelf.find(({ id }) => id === value)?.profile ?? null);
            }}
          >
            <option value="none">a printer nobody has measured</option>
            {profile && !lies && <option value="job">{nameOf(profile)} (of this job)</option>}
            {shelf.map(({ id, profile: one }) => (
              <option key={id} value={id}>
                {nameOf(one)}
              </option>
            ))}
          </select>
        </label>
        <button type="button" aria-expanded={form.value === 'new'} onClick={() => toggle(form, 'new')}>
          new printer
        </button>
        {profile && (
          <button type="button" aria-expanded={form.value === 'edit'} onClick={() => toggle(form, 'edit')}>
            bed, line, layer
          </button>
        )}
        {profile && !lies && (
          <button type="button" onClick={() => void drawer.keepPrinter(profile, Date.now())}>
            keep it in the drawer
          </button>
        )}
      </div>
      {form.value !== 'none' && (
        <PrinterForm
          key={form.value}
          of={form.value === 'edit' ? profile : null}
          done={() => {
            form.value = 'none';
          }}
        />
      )}
      <Standing profile={profile} material={job.material ?? 'PLA'} named={job.printer} />
      {profile && <KnownOf profile={profile} />}
    </section>
  );
}

const toggle = (form: { value: 'none' | 'new' | 'edit' }, to: 'new' | 'edit') => {
  form.value = form.value === to ? 'none' : to;
};

const nameOf = ({ name, material, calibrated }: PrinterProfile): string =>
  `${name}, ${material ?? 'any material'}${calibrated === null ? ', not calibrated' : ''}`;

/** Whether it has been measured for the material of this job. */
function Standing({
  profile,
  material,
  named,
}: {
  readonly profile: PrinterProfile | null;
  readonly material: string;
  readonly named: unknown;
}) {
  if (!profile)
    return (
      <p class="standing">
        {typeof named === 'string'
          ? `The job names the profile "${named}", which did not come with it: drop that file here.`
          : 'It is taken for a printer as they come, with all the doubt there is about one. Say which it is, print its coupon, and the chance rises.'}
      </p>
    );
  const { calibrated, calibration, bed, lineWidth, layer, firstLayer } = profile;
  const other = profile.material !== null && profile.material !== material;
  return (
    <>
      <p class="standing">
        {calibrated === null ? (
          <>
            <strong>Not calibrated.</strong> What it does is guessed from what printers do; its coupon tells.
          </>
        ) : (
          <>
            <strong>Calibrated {day(calibrated)}</strong>
            {calibration && ` with ${calibration.callipers}`}.
          </>
        )}
      </p>
      {other && (
        <p class="standing mind">
          {calibrated === null ? 'Its profile is for' : 'It was measured with'} {profile.material}; this job
          is in {material}, which shrinks and spreads otherwise. Print a coupon in {material} with a profile
          of its own.
        </p>
      )}
      <dl class="facts short">
        <Fact name="filament">{profile.material ?? 'not said'}</Fact>
        <Fact name="bed">
          {bed.x} × {bed.y} × {bed.z} mm
        </Fact>
        <Fact name="layers">
          {layer} mm, first {firstLayer}
        </Fact>
        <Fact name="line">{lineWidth} mm</Fact>
        <Fact name="scatter">
          {formatNumber(profile.repeatability, profile.repeatability)} mm from print to print
        </Fact>
      </dl>
    </>
  );
}

function KnownOf({ profile }: { readonly profile: PrinterProfile }) {
  const lines = parameterLines(profile);
  return (
    <details class="known" open={profile.calibrated !== null}>
      <summary>What it does to a print, drawn much too large</summary>
      <ul>
        {lines.map((line) => (
          <KnownLine key={line.parameter} line={line} />
        ))}
      </ul>
      <p class="aside">
        Dashed: as drawn. Wide: as printed. Figures with twice their standard uncertainty (k = 2); the bar is
        the doubt that is left of what there is about any printer.
      </p>
    </details>
  );
}

function KnownLine({ line: { parameter, what, value, u, left, way } }: { readonly line: ParameterLine }) {
  const { drawn, printed, bed } = parameterPicture(parameter, way);
  const [figure, doubt] = knownFigures(parameter, { value, u });
  return (
    <li>
      <svg class="effect" viewBox="0 0 64 36" aria-hidden="true">
        {bed && <path class="bed-line" d={bed} />}
        <path class="printed" d={printed} fill-rule="evenodd" />
        <path class="as-drawn" d={drawn} />
      </svg>
      <span class="what">{what}</span>
      <span class="figure">
        {figure} <span class="doubt">± {doubt}</span>{' '}
        <span class="unit">{parameterTold[parameter].unit.replace('mm2', 'mm²')}</span>
      </span>
      <span class="how-well">
        <svg class="left" viewBox="0 0 40 6" preserveAspectRatio="none" aria-hidden="true">
          <path class="whole" d="M0 3H40" />
          <path class="rest" d={`M0 3H${40 * left}`} />
        </svg>
        known {knownWord(left)}
        <span class="unseen">, {percent(left)} of the doubt is left</span>
      </span>
    </li>
  );
}
