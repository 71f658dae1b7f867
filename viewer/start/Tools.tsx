import { useEffect } from 'preact/hooks';
import { titleOf, useDrawer } from '../drawer/drawer.ts';
import { UndoTools } from './UndoTools.tsx';
import './tools.css';

/** Beside the tabs of the sheets: undo, redo, and the handle of the drawer. The title block shows what the job is called; the
 *  heading here says it to readers of the screen, the browser's tab to whoever has two. */
export function Tools() {
  const { isOut, bench } = useDrawer();
  const title = titleOf(bench.job.value);
  useEffect(() => {
    document.title = `${title} - Fettle`;
  }, [title]);
  return (
    <div class="tools">
      <h1 class="unseen">{title}</h1>
      <UndoTools />
      <button
        type="button"
        id="drawer-handle"
        class="handle"
        aria-expanded={isOut.value}
        aria-controls="drawer"
        onClick={() => {
          isOut.value = !isOut.value;
        }}
      >
        drawer
        <svg viewBox="0 0 24 12" aria-hidden="true">
          <path d={isOut.value ? 'M4 9 12 3l8 6' : 'M4 3l8 6 8-6'} />
        </svg>
      </button>
    </div>
  );
}
