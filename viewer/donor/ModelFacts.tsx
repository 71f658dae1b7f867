import { useId } from 'preact/hooks';
import type { LengthUnit } from '../../src/donor/types.ts';
import type { RefitSheet } from '../../src/job/refitSheet.ts';
import { percent } from '../../src/output/words/index.ts';
import { formatNumber } from '../../src/units/index.ts';
import { ModelButton } from '../drawer/ModelButton.tsx';
import { Mark } from '../verdict/Mark.tsx';
import type { RefitDesk } from './refitDesk.ts';

const unitNames: Readonly<Record<LengthUnit, string>> = {
  micron: 'microns',
  mm: 'millimetres',
  cm: 'centimetres',
  inch: 'inches',
  foot: 'feet',
  metre: 'metres',
};

const several = (count: number, one: string, more: string): string => `${count} ${count === 1 ? one : more}`;

/** What the model is: its unit, guessed or told, its size, and what was put right while it was read. */
export function ModelFacts({ desk, sheet }: { readonly desk: RefitDesk; readonly sheet: RefitSheet }) {
  const id = useId();
  const { file, units, extents, triangles, sound, repairs, remarks } = sheet.model;
  const told = desk.bench.job.value.donor?.units;
  const sure = units.from === 'guess' ? `guessed, ${percent(units.confidence)} sure: ` : '';
  const doubtful = units.from === 'guess' && units.confidence < 0.8;
  return (
    <section class="facts" aria-label="What the model is">
      <header>
        <h2>{file}</h2>
        <ModelButton>another model</ModelButton>
      </header>
      <dl>
        <dt>
          <label for={id}>its numbers are</label>
        </dt>
        <dd>
          <select
            id={id}
            data-field="donor.units"
            value={told ?? ''}
            onChange={({ currentTarget: { value } }) =>
              desk.setUnits(value === '' ? null : (value as LengthUnit))
            }
          >
            <option value="">{told ? 'as guessed' : unitNames[units.guess as LengthUnit]}</option>
            {(Object.keys(unitNames) as LengthUnit[])
              .filter((unit) => told !== undefined || unit !== units.guess)
              .map((unit) => (
                <option key={unit} value={unit}>
                  {unitNames[unit]}
                </option>
              ))}
          </select>{' '}
          <span class="tip">
            {doubtful && <Mark verdict="caution" said />} {sure}
            {units.because}
          </span>
        </dd>
        <dt>size</dt>
        <dd class="figure">
          {extents.map((x) => formatNumber(x)).join(' × ')} <small>mm</small>
        </dd>
        <dt>sound</dt>
        <dd>
          <Mark verdict="holds" /> closed, {several(sound.bodies, 'body', 'bodies')},{' '}
          {sound.genus === 0 ? 'no hole through' : several(sound.genus, 'hole through', 'holes through')},{' '}
          {Number(sound.volume.toPrecision(4))} mm³, {triangles} triangles
        </dd>
        {repairs.length > 0 && (
          <>
            <dt>put right</dt>
            <dd>
              {repairs.map(({ sentence }) => (
                <p key={sentence}>{sentence}</p>
              ))}
            </dd>
          </>
        )}
        {remarks.length > 0 && (
          <>
            <dt>odd</dt>
            <dd>
              {remarks.map((remark) => (
                <p key={remark}>{remark}</p>
              ))}
            </dd>
          </>
        )}
      </dl>
    </section>
  );
}
