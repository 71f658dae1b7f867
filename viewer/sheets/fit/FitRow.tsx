import { useState } from 'preact/hooks';
import type { FitFacts } from '../../../src/job/fitFacts.ts';
import type { MakeResult, ReportedInterface } from '../../../src/job/result.ts';
import { clearanceWindow, percent } from '../../../src/output/words/index.ts';
import { formatNumber } from '../../../src/units/index.ts';
import { useBench } from '../../bench/bench.ts';
import { Balloon } from '../../verdict/Balloon.tsx';
import { DoubtBars } from '../../verdict/DoubtBars.tsx';
import { FeelChoice } from './FeelChoice.tsx';
import { feelOf } from './feel.ts';
import { numberOf, surfaceOf } from './surfaceOf.ts';
import { WindowBar } from './WindowBar.tsx';

interface FitRowProps {
  readonly fit: ReportedInterface;
  readonly result: MakeResult;
  readonly facts: FitFacts | null;
}

/** One meeting surface; unfolded, how it should feel and what its doubt rests on. */
export function FitRow({ fit, result, facts }: FitRowProps) {
  const bench = useBench();
  const { own } = surfaceOf(result, fit.id);
  const surface = facts?.surfaces.find(({ id }) => id === own);
  const wish = bench.job.value.fits?.[own];
  const kind = feelOf(wish);
  const number = numberOf(result, fit.id);
  const [open, setOpen] = useState(false);
  const usual = surface?.normal ?? 'its own window';
  const feel = kind === 'usual' ? usual : kind === 'window' ? 'own window' : String(wish);
  const picked = number !== null && bench.balloon.value === number;
  const below = `doubt-${fit.id}`;
  return (
    <>
      <tr class={`fit-row${picked ? ' picked' : ''}${open ? ' open' : ''}`}>
        <th scope="row" class="what">
          <span class="name">
            {number !== null && <Balloon number={number} about={fit.name} />}
            <span>{fit.name}</span>
          </span>
          <button
            type="button"
            class="feel"
            data-field={`fits.${own}`}
            aria-expanded={open}
            aria-controls={below}
            onClick={() => setOpen(!open)}
          >
            {kind !== 'usual' && <span class="asked">asked: </span>}
            {feel}
            <svg class="chevron" viewBox="0 0 24 12" aria-hidden="true">
              <path d={open ? 'M4 9 12 3l8 6' : 'M4 3l8 6 8-6'} />
            </svg>
          </button>
        </th>
        <Figure label="machine">{formatNumber(fit.host)}</Figure>
        <Figure label="draw">
          <b>{formatNumber(fit.drawn)}</b>
        </Figure>
        <Figure label="prints at">{formatNumber(fit.predicted)}</Figure>
        <Figure label="clearance">
          {formatNumber(fit.clearance)} <small>± {formatNumber(2 * fit.u)}</small>
        </Figure>
        <td class="window" data-label="window">
          <WindowBar fit={fit} />
          <span>{clearanceWindow(fit.window)}</span>
        </td>
        <Figure label="chance">{percent(fit.chance)}</Figure>
      </tr>
      {open && (
        <tr class="unfolded" id={below}>
          <td colSpan={7}>
            <div class="beside">
              {surface && <FeelChoice surface={surface} wish={wish} shared={result.parts.length} />}
              <DoubtBars shares={fit.shares} caption={`What the doubt about it rests on`} />
            </div>
          </td>
        </tr>
      )}
    </>
  );
}

function Figure({
  label,
  children,
}: {
  readonly label: string;
  readonly children: preact.ComponentChildren;
}) {
  return (
    <td class="number" data-label={label}>
      {children}
    </td>
  );
}
