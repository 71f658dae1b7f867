import { useEffect, useRef } from 'preact/hooks';
import { useDrawer } from './drawer.ts';
import { FileButton } from './FileButton.tsx';
import { JobRow } from './JobRow.tsx';
import { NewJobs } from './NewJobs.tsx';
import { PrinterShelf } from './PrinterShelf.tsx';
import { ThrownAway } from './ThrownAway.tsx';
import { takeFiles } from './takeFiles.ts';
import './drawer.css';

/** The drawer, pulled out: jobs that lie in it, new ones, printers, files in and out. Part of the page, nothing in front. */
export default function DrawerPanel() {
  const drawer = useDrawer();
  const panel = useRef<HTMLElement>(null);
  useEffect(() => {
    void drawer.refresh();
    panel.current?.focus();
    return () => {
      // What had the focus in it goes with it.
      if (document.activeElement === document.body) document.getElementById('drawer-handle')?.focus();
    };
  }, []);
  const onBench = drawer.keeper.id.value;
  const lines = drawer.lines.value.filter(({ thrown }) => thrown === undefined);
  const now = Date.now();
  return (
    <section
      class="drawer"
      id="drawer"
      aria-label="Drawer"
      tabIndex={-1}
      ref={panel}
      onKeyDown={({ key }) => {
        if (key !== 'Escape') return;
        drawer.isOut.value = false;
        document.getElementById('drawer-handle')?.focus();
      }}
    >
      <div class="jobs">
        <h2>Jobs</h2>
        {!lines.some(({ id }) => id === onBench) && (
          <p class="aside">What lies on the bench comes in here with the first change.</p>
        )}
        <ul>
          {lines.map((line) => (
            <JobRow key={line.id} line={line} now={now} />
          ))}
        </ul>
        <p class="deeds">
          <FileButton
            accept=".json,.zip,.stl,.3mf"
            take={(files) => void takeFiles(drawer, files, Date.now())}
          >
            open files
          </FileButton>
          <span class="aside">jobs, bundles, printers, models; or drop them anywhere</span>
        </p>
      </div>
      <div class="new">
        <h2>New</h2>
        <NewJobs />
      </div>
      <div class="printers">
        <h2>Printers</h2>
        <PrinterShelf />
      </div>
      <ThrownAway />
      <p class="aside foot">
        All this lies in this browser and nowhere else. Take away as files what you would miss.
      </p>
    </section>
  );
}
