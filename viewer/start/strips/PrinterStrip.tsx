import { shown } from '../../../src/archive/shown.ts';
import { useDrawer } from '../../drawer/drawer.ts';
import { FileButton } from '../../drawer/FileButton.tsx';
import { takeFiles } from '../../drawer/takeFiles.ts';
import { Strip } from '../Strip.tsx';

/** Asks once for the printer profile that a job names, which a page cannot find beside it. */
export function PrinterStrip() {
  const drawer = useDrawer();
  const named = drawer.bench.job.value.printer;
  if (typeof named !== 'string') return null;
  const printers = drawer.printers.value.filter(({ thrown }) => thrown === undefined);
  return (
    <Strip
      kind="mind"
      name="Printer wanted"
      deeds={
        <>
          <FileButton accept=".json" take={(files) => void takeFiles(drawer, files, Date.now())}>
            choose the file
          </FileButton>
          {printers.map(({ id, profile }) => (
            <button type="button" key={id} onClick={() => drawer.usePrinter(profile)}>
              {profile.name}
              {profile.material ? `, ${profile.material}` : ''}
            </button>
          ))}
          <button type="button" onClick={() => drawer.usePrinter(null)}>
            go on without
          </button>
        </>
      }
    >
      <strong>The job names a printer profile, {shown(named)}.</strong> Give its file and it goes into the
      job; without it the part is drawn for a printer nobody has measured.
    </Strip>
  );
}
