import { day } from '../../src/output/words/index.ts';
import { useDrawer } from './drawer.ts';

/** Printers that lie in the drawer. */
export function PrinterShelf() {
  const drawer = useDrawer();
  const printers = drawer.printers.value.filter(({ thrown }) => thrown === undefined);
  const used = drawer.bench.job.value.printer;
  const usedText = JSON.stringify(used);
  const lies = printers.some(({ profile }) => JSON.stringify(profile) === usedText);
  return (
    <>
      {printers.length === 0 && (
        <p class="aside">None yet. A profile comes from a printer's coupon, or from its file.</p>
      )}
      <ul>
        {printers.map((printer) => {
          const { id, profile } = printer;
          const isUsed = JSON.stringify(profile) === usedText;
          return (
            <li key={id} class={isUsed ? 'on-bench' : undefined}>
              <div class="what">
                <span>{profile.name}</span>
                <span class="aside">
                  {profile.material ?? 'any material'} ·{' '}
                  {profile.calibrated ? `calibrated ${day(profile.calibrated)}` : 'not calibrated'}
                  {isUsed ? ' · of this job' : ''}
                </span>
              </div>
              <div class="deeds">
                {!isUsed && (
                  <button
                    type="button"
                    aria-label={`Use ${profile.name} for the job`}
                    onClick={() => drawer.usePrinter(profile)}
                  >
                    use
                  </button>
                )}
                <button
                  type="button"
                  aria-label={`Take printer ${profile.name} away as a file`}
                  onClick={() => drawer.exportPrinter(profile)}
                >
                  file
                </button>
                <button
                  type="button"
                  aria-label={`Throw away printer ${profile.name}`}
                  onClick={() => void drawer.throwPrinter(printer, Date.now())}
                >
                  throw away
                </button>
              </div>
            </li>
          );
        })}
      </ul>
      {typeof used === 'object' && !lies && (
        <p class="deeds">
          <button type="button" onClick={() => void drawer.keepPrinter(used, Date.now())}>
            keep {used.name} from this job
          </button>
        </p>
      )}
    </>
  );
}
