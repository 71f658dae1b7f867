import { KEPT_DAYS, titleOf, useDrawer } from './drawer.ts';

/** What was thrown away and can still be brought back. */
export function ThrownAway() {
  const drawer = useDrawer();
  const jobs = drawer.lines.value.filter(({ thrown }) => thrown !== undefined);
  const printers = drawer.printers.value.filter(({ thrown }) => thrown !== undefined);
  if (jobs.length + printers.length === 0) return null;
  return (
    <details class="thrown">
      <summary>
        {jobs.length + printers.length} thrown away, kept for {KEPT_DAYS} days
      </summary>
      <ul>
        {jobs.map(({ id, now }) => (
          <Back key={id} name={titleOf(now)} bring={() => void drawer.bringBack(id)} />
        ))}
        {printers.map((printer) => (
          <Back
            key={printer.id}
            name={`printer ${printer.profile.name}`}
            bring={() => void drawer.bringPrinterBack(printer)}
          />
        ))}
      </ul>
    </details>
  );
}

function Back({ name, bring }: { readonly name: string; readonly bring: () => void }) {
  return (
    <li>
      <div class="what">
        <span>{name}</span>
      </div>
      <div class="deeds">
        <button type="button" aria-label={`Bring back ${name}`} onClick={bring}>
          bring back
        </button>
      </div>
    </li>
  );
}
