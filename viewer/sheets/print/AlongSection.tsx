import { useEffect } from 'preact/hooks';
import { SPACING, SPACING_ALLOWED } from '../../../src/job/plateSpacing.ts';
import type { Problem } from '../../../src/job/problem.ts';
import { useDrawer } from '../../drawer/drawer.ts';
import { AlongRow } from './AlongRow.tsx';
import type { BedDesk } from './bedDesk.ts';
import { PlateFiles } from './PlateFiles.tsx';

/** Other jobs of the drawer on the same bed: which, how far apart, and the bed as a file. Changes none of them. */
export function AlongSection({ desk }: { readonly desk: BedDesk }) {
  const { along } = desk;
  const count = along.asked.value.length;
  return (
    <details
      class="along"
      open={along.isOpen.value}
      onToggle={({ currentTarget: { open } }) => {
        along.isOpen.value = open;
      }}
    >
      <summary data-field="plate">
        <h3>Print others at the same time</h3>
        <span class="aside">
          {count === 0
            ? 'jobs of the drawer for the same printer and filament, on the same bed'
            : `${count} ${count === 1 ? 'job' : 'jobs'} along`}
        </span>
      </summary>
      {along.isOpen.value && <Body desk={desk} />}
    </details>
  );
}

function Body({ desk }: { readonly desk: BedDesk }) {
  const drawer = useDrawer();
  const { along } = desk;
  useEffect(() => void drawer.refresh(), [drawer]);
  const lines = along.lines.value;
  const blamed = blamedJobs(desk);
  const can = lines.filter(({ isAlong, problems }) => isAlong || problems.length === 0);
  const cannot = lines.filter((line) => !can.includes(line));
  return (
    <>
      {lines.length === 0 && <p class="aside">No other job lies in the drawer.</p>}
      {can.length > 0 && (
        <ul class="along-jobs" aria-label="Jobs that can be printed along">
          {can.map((line) => (
            <AlongRow key={line.line.id} desk={desk} along={line} blamed={blamed.get(line.line.id) ?? []} />
          ))}
        </ul>
      )}
      {cannot.length > 0 && (
        <ul class="along-jobs cannot" aria-label="Jobs that cannot">
          {cannot.map((line) => (
            <AlongRow key={line.line.id} desk={desk} along={line} blamed={[]} />
          ))}
        </ul>
      )}
      <Apart desk={desk} />
      <PlateFiles desk={desk} />
    </>
  );
}

/** What is wrong with jobs that are ticked, once they were laid. Too many parts are told where the last ones came from. */
function blamedJobs({ along, refused }: BedDesk): ReadonlyMap<string, readonly Problem[]> {
  const asked = along.asked.value;
  const now = refused.value;
  const all = now && 'blamed' in now ? now.blamed : [];
  return new Map(
    all.flatMap(({ job, problems }) => {
      const isFull = problems.some(({ code }) => code === 'plate_full');
      // The bench has the first place in a plate.
      const one = isFull ? asked.at(-1) : asked[job - 1];
      return one ? [[one.id, problems] as const] : [];
    }),
  );
}

/** How far apart the parts stand at least. */
function Apart({ desk: { along } }: { readonly desk: BedDesk }) {
  const trouble = along.apartTrouble.value;
  return (
    <p class="apart">
      <label>
        <span class="label">at least</span>{' '}
        <input
          type="text"
          inputMode="decimal"
          autocomplete="off"
          maxLength={12}
          aria-label="Least distance between parts, mm"
          placeholder={String(SPACING.normal)}
          value={along.spacing.value}
          aria-invalid={trouble === '' ? undefined : true}
          aria-describedby="apart-hint"
          onInput={({ currentTarget: { value } }) => {
            along.spacing.value = value;
          }}
        />{' '}
        mm apart
      </label>{' '}
      <span id="apart-hint" class={trouble === '' ? 'aside' : 'refused'}>
        {trouble === ''
          ? `and from the edge of the bed; ${SPACING_ALLOWED}`
          : `"${along.spacing.value.trim()}" will not do; ${trouble}`}
      </span>
    </p>
  );
}
