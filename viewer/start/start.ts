import { Bench } from '../bench/bench.ts';
import { openDrawer } from '../bench/jobDrawer.ts';
import { freshHistory, JobHistory } from '../bench/jobHistory.ts';
import { JobKeeper } from '../bench/jobKeeper.ts';
import type { JobStore } from '../bench/jobStore.ts';
import { memoryStore } from '../bench/memoryStore.ts';
import { newId } from '../bench/newId.ts';
import { Pen } from '../bench/pen.ts';
import { openTabs } from '../bench/tabs.ts';
import { openShelf } from '../donor/modelsHere.ts';
import { Drawer } from '../drawer/drawer.ts';
import { followLessons } from '../drawer/followLessons.ts';
import { takeFiles } from '../drawer/takeFiles.ts';
import { SpineClient } from '../spine/spineClient.ts';
import { exampleJob } from './exampleJob.ts';
import { lastHere, rememberHere } from './lastHere.ts';
import { openWorker } from './openWorker.ts';

/** Sets the bench up as it was left: this tab's job on its sheet, else the job saved last, else the example. */
export async function start(): Promise<Drawer> {
  const spine = new SpineClient(openWorker);
  // The kernel loads while the drawer opens.
  spine.warm();
  const { store, lost } = await openDrawer().then(
    (store): { store: JobStore; lost?: string } => ({ store }),
    (error: unknown) => ({
      store: memoryStore(),
      lost: error instanceof Error ? error.message : String(error),
    }),
  );
  const tabs = openTabs();
  const pen = new Pen(tabs, navigator.locks as LockManager | undefined);
  const bench = new Bench(new JobHistory(freshHistory(exampleJob)), spine);
  const keeper = new JobKeeper(bench, store, tabs, pen, lost);
  const drawer = new Drawer(bench, keeper, store, tabs, exampleJob);
  openShelf(drawer);
  drawer.takeModel = async (name, bytes) =>
    (await import('../donor/takeModel.ts')).takeModel(drawer, name, bytes);
  await drawer.refresh();

  const here = lastHere();
  const there = drawer.lines.peek().filter(({ thrown }) => thrown === undefined);
  const last = there.find(({ id }) => id === here) ?? there[0];
  const opened = last !== undefined && (await drawer.open(last.id).catch(() => false));
  // Not waited for: another tab's pen is no reason to show nothing.
  if (!opened) void keeper.keep({ id: newId(), revision: 0, models: {} });
  rememberHere(keeper.id);
  followLessons(drawer);
  void drawer.sweep(Date.now()).catch(() => {});

  const hide = () => keeper.saveAtOnce();
  addEventListener('pagehide', hide);
  document.addEventListener('visibilitychange', () => document.visibilityState === 'hidden' && hide());
  addEventListener('beforeunload', (event) => {
    hide();
    // The one case in which closing loses something.
    if (keeper.keeping.peek().kind === 'unkept' && bench.history.undoes.peek() !== null)
      event.preventDefault();
  });
  takeDrops(drawer);
  return drawer;
}

/** Files dropped anywhere on the page are taken, not opened in its place. */
function takeDrops(drawer: Drawer): void {
  const holdsFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false;
  addEventListener('dragover', (event) => holdsFiles(event) && event.preventDefault());
  addEventListener('drop', (event) => {
    if (event.defaultPrevented || !holdsFiles(event)) return;
    event.preventDefault();
    void takeFiles(drawer, [...(event.dataTransfer?.files ?? [])], Date.now());
  });
}
