import { useBench } from '../bench/bench.ts';

/** Says that what is shown is of an earlier state of the job. Its room is kept while it does not show, so that nothing
 *  moves. */
export function StaleNote() {
  const bench = useBench();
  const refused = bench.outcome.value?.kind === 'refused' && bench.made.value !== null;
  const working = bench.stale.value;
  return (
    <span class={`stale-note${working || refused ? ' shows' : ''}`} aria-hidden={!working && !refused}>
      <svg viewBox="0 0 20 20" aria-hidden="true">
        <circle cx="10" cy="10" r="8" />
        <path d="M10 5v5l3.4 2" />
      </svg>
      as it was
    </span>
  );
}
