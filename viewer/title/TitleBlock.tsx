import { lazy, Suspense } from 'preact/compat';
import { useState } from 'preact/hooks';
import { day } from '../../src/output/words/index.ts';
import { sheetsOf, useBench } from '../bench/bench.ts';
import { leadTo } from '../verdict/leadTo.ts';
import { Mark } from '../verdict/Mark.tsx';
import { Cell } from './Cell.tsx';
import { LicenceCell } from './LicenceCell.tsx';
import { QuantityCell } from './QuantityCell.tsx';
import { TextCell } from './TextCell.tsx';
import './title.css';

const MaterialPanel = lazy(() => import('./MaterialPanel.tsx'));

/** Digits of the job's hash that tell jobs apart on paper; as many as the report prints. */
const SHORT_HASH = 12;

/** What a drawing's title block holds (after ISO 7200), edited where it stands. */
export function TitleBlock() {
  const bench = useBench();
  const job = bench.job.value;
  const result = bench.made.value?.result;
  const trials = job.trials?.length ?? 0;
  const [choosing, choose] = useState(false);
  const material = job.material ?? 'PLA';
  return (
    <section class={`title-block${bench.stale.value ? ' stale' : ''}`} aria-label="Title block">
      <div class="cells">
        <TextCell field="title" label="title" most={200} empty={result?.job.title ?? ''} />
        <QuantityCell />
        <Cell label="material" name="material">
          <button
            type="button"
            class="value"
            data-field="material"
            aria-expanded={choosing}
            onClick={() => choose(!choosing)}
          >
            {material}
            <svg class="chevron" viewBox="0 0 24 12" aria-hidden="true">
              <path d={choosing ? 'M4 9 12 3l8 6' : 'M4 3l8 6 8-6'} />
            </svg>
          </button>
        </Cell>
        <PrinterCell />
        <TextCell field="author" label="passed on by" most={200} empty="nobody named" />
        <LicenceCell />
        <Cell label="kind of part" name="family">
          {job.family.replaceAll('-', ' ')}
        </Cell>
        <Cell label="job" name="hash">
          <span class="mono">{result?.job.hash.slice(0, SHORT_HASH) ?? '...'}</span>
        </Cell>
        <Cell label="revision" name="revision">
          {trials}{' '}
          {trials > 0 && <small>after {trials === 1 ? 'one print' : `${trials} prints`} tried</small>}
        </Cell>
        <Cell label="sheet" name="sheet">
          {sheetsOf(job).indexOf(bench.sheet.value) + 1} / {sheetsOf(job).length}
        </Cell>
      </div>
      {choosing && (
        <Suspense fallback={null}>
          <MaterialPanel close={() => choose(false)} />
        </Suspense>
      )}
    </section>
  );
}

function PrinterCell() {
  const bench = useBench();
  const { printer, material = 'PLA' } = bench.job.value;
  const profile = typeof printer === 'object' ? printer : null;
  const name = profile?.name ?? (typeof printer === 'string' ? printer : 'any printer');
  const strange = profile !== null && profile.calibrated !== null && profile.material !== material;
  return (
    <Cell label="printer" name="printer">
      <button type="button" class="value" onClick={() => leadTo(bench, 'printer')}>
        {name}
        <small>
          {!profile || profile.calibrated === null ? (
            <>
              <Mark verdict="caution" /> nobody has measured it
            </>
          ) : (
            <>
              {strange && <Mark verdict="caution" />} calibrated {day(profile.calibrated)}
              {strange && ` in ${profile.material}`}
            </>
          )}
        </small>
      </button>
    </Cell>
  );
}
