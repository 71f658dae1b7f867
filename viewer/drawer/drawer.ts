import { effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import { sha256Hex } from '../../src/job/hash.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { stepsOf } from '../../src/job/stepsOf.ts';
import { profileText } from '../../src/printer/profileText.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { type Bench, type SheetName, sheetsOf } from '../bench/bench.ts';
import { freshHistory, stepped } from '../bench/jobHistory.ts';
import type { JobKeeper } from '../bench/jobKeeper.ts';
import type { JobLine, JobStore, StoredPrinter } from '../bench/jobStore.ts';
import { newId } from '../bench/newId.ts';
import type { Tabs } from '../bench/tabs.ts';
import { handOver } from './handOver.ts';
import { jobFile, printerFile } from './jobFiles.ts';
import { withProfile } from './withProfile.ts';

/** One thing said to the person, until the next one. */
export interface Told {
  readonly kind: 'done' | 'refused';
  readonly lines: readonly string[];
  /** What takes it back, or can be done now. */
  readonly deeds?: readonly { readonly label: string; readonly do: () => void }[];
}

/** Days for which what was thrown away can be brought back. */
export const KEPT_DAYS = 30;
const DAY = 24 * 60 * 60 * 1000;

export const titleOf = ({ title, family }: JobFile): string => title?.trim() || family.replaceAll('-', ' ');

/** The drawer of the bench: jobs, printers and models that are kept, and files in and out. */
export class Drawer {
  readonly bench: Bench;
  readonly keeper: JobKeeper;
  readonly #store: JobStore;
  readonly #tabs: Tabs;
  readonly #example: JobFile;
  readonly #lines = signal<readonly JobLine[]>([]);
  readonly #printers = signal<readonly StoredPrinter[]>([]);
  /** Whether it is pulled out. */
  readonly isOut: Signal<boolean> = signal(false);
  readonly told: Signal<Told | null> = signal(null);
  /** What to do with a model of a similar part; set by who refits. Undefined: models are not taken. */
  takeModel: ((name: string, bytes: Uint8Array) => Promise<void>) | undefined;

  constructor(bench: Bench, keeper: JobKeeper, store: JobStore, tabs: Tabs, example: JobFile) {
    this.bench = bench;
    this.keeper = keeper;
    this.#store = store;
    this.#tabs = tabs;
    this.#example = example;
    tabs.hear(({ kind }) => (kind === 'saved' || kind === 'sorted') && void this.refresh());
    // The first change to what lies on the bench puts it into the drawer, which may be out already.
    effect(() => {
      const isKept = keeper.keeping.value.kind === 'kept';
      const isNew = !this.#lines.peek().some(({ id }) => id === keeper.id.peek());
      if (isKept && isNew && this.isOut.peek()) void this.refresh();
    });
  }

  /** Jobs there are, thrown away ones among them; the one saved last first. */
  get lines(): ReadonlySignal<readonly JobLine[]> {
    return this.#lines;
  }

  /** Printers there are, thrown away ones among them. */
  get printers(): ReadonlySignal<readonly StoredPrinter[]> {
    return this.#printers;
  }

  /** Reads again what there is. */
  async refresh(): Promise<void> {
    try {
      [this.#lines.value, this.#printers.value] = await Promise.all([
        this.#store.jobs(),
        this.#store.printers(),
      ]);
    } catch {
      // A list that cannot be read stays as it was; that nothing is kept is said elsewhere.
    }
  }

  /** Takes out for good what was thrown away long ago. */
  async sweep(now: number): Promise<void> {
    const old = <T extends { readonly id: string; readonly thrown?: number }>(list: readonly T[]) =>
      list.filter(({ thrown }) => thrown !== undefined && now - thrown > KEPT_DAYS * DAY).map(({ id }) => id);
    const [jobs, printers] = [old(this.#lines.peek()), old(this.#printers.peek())];
    if (jobs.length > 0) await this.#store.remove(jobs);
    if (printers.length > 0) await this.#store.removePrinters(printers);
    if (jobs.length + printers.length > 0) await this.refresh();
  }

  /** Lays a job of the drawer on the bench. False where it is not there any more. */
  async open(id: string): Promise<boolean> {
    if (!(await this.#mayLeave())) return false;
    const job = await this.#store.job(id);
    if (!job) return false;
    const { now, past, future, sheet } = job;
    this.bench.lay({ now, past, future }, sheetNamed(sheet, now));
    await this.keeper.keep(job);
    return true;
  }

  /** Puts a job that refits a model into the drawer and on the bench, at the sheet about the model. */
  async addRefit(job: JobFile, model: { readonly name: string; readonly bytes: Uint8Array }): Promise<void> {
    await this.add(job, { [model.name]: await this.putModel(model) }, 'model');
  }

  /** Puts a job into the drawer and on the bench. */
  async add(
    job: JobFile,
    models: Readonly<Record<string, string>> = {},
    sheet: SheetName = 'measure',
  ): Promise<void> {
    if (!(await this.#mayLeave())) return;
    const id = newId();
    const line = { id, revision: 0, saved: 0, sheet, models };
    await this.#kept(() => this.#store.update(id, () => ({ ...line, ...freshHistory(job) })));
    // Where nothing can be kept it lies on the bench all the same, with only itself to save it.
    if (!(await this.open(id).catch(() => false))) this.#lay(job, id, models, sheet);
    await this.#sorted();
  }

  /** A new job of a family, or the example once more. */
  async begin(family: string | null): Promise<void> {
    if (!(await this.#mayLeave())) return;
    if (family === null) this.#lay(this.#example, newId(), {});
    else await this.add(await this.bench.spine.look((spine) => spine.newJob(family)));
    this.isOut.value = false;
  }

  async copy(id: string): Promise<void> {
    await this.keeper.flush();
    const job = id === this.keeper.id.peek() ? this.bench.job.peek() : (await this.#store.job(id))?.now;
    if (!job) return;
    const title = `${titleOf(job).slice(0, 190)} (copy)`;
    await this.add({ ...job, title }, this.#lines.peek().find((line) => line.id === id)?.models);
    this.#done(`${title} is on the bench`);
  }

  /** Calls a job by another title; a step that undo takes back. */
  async rename(id: string, title: string): Promise<void> {
    const change = (job: JobFile): JobFile => ({ ...job, title });
    if (id === this.keeper.id.peek()) {
      this.bench.change('title', change, true);
      return;
    }
    await this.#changed(id, (there) => ({ ...there, ...stepped(there, change(there.now), 'title', true) }));
  }

  /** Throws a job away; it can be brought back for a month. The next one comes on the bench if it lay there. */
  async throwAway(id: string, now: number): Promise<void> {
    const onBench = id === this.keeper.id.peek();
    if (onBench) await this.keeper.flush();
    const title = titleOf(
      onBench ? this.bench.job.peek() : (this.#lines.peek().find((l) => l.id === id)?.now ?? this.#example),
    );
    await this.#changed(id, (there) => ({ ...there, thrown: now }));
    if (onBench) {
      const next = this.#lines.peek().find((line) => line.thrown === undefined && line.id !== id);
      if (!next || !(await this.open(next.id))) this.#lay(this.#example, newId(), {});
    }
    this.told.value = {
      ...{ kind: 'done', lines: [`Thrown away: ${title}`] },
      deeds: [{ label: 'bring it back', do: () => void this.bringBack(id, onBench) }],
    };
  }

  async bringBack(id: string, onBench = false): Promise<void> {
    await this.#changed(id, ({ thrown: _, ...there }) => there);
    if (onBench) await this.open(id);
    this.told.value = null;
  }

  /** Gives a job out as the file that the command line reads too. */
  exportJob(job: JobFile): void {
    const { name, text } = jobFile(job);
    handOver(name, text, 'application/json');
  }

  exportPrinter(profile: PrinterProfile): void {
    const { name, text } = printerFile(profile);
    handOver(name, text, 'application/json');
  }

  /** Puts a printer profile into the drawer, unless the very same is there. `id` replaces one, as after a calibration. */
  async keepPrinter(profile: PrinterProfile, now: number, id?: string): Promise<void> {
    const text = profileText(profile);
    const same = this.#printers.peek().find((printer) => profileText(printer.profile) === text);
    const key = id ?? same?.id ?? newId();
    await this.#kept(() => this.#store.putPrinter({ id: key, saved: now, profile }));
    await this.#sorted();
  }

  async throwPrinter(printer: StoredPrinter, now: number): Promise<void> {
    const { id, saved, profile } = printer;
    await this.#kept(() => this.#store.putPrinter({ id, saved, profile, thrown: now }));
    await this.#sorted();
    this.told.value = {
      ...{ kind: 'done', lines: [`Thrown away: printer ${profile.name}`] },
      deeds: [{ label: 'bring it back', do: () => void this.bringPrinterBack(printer) }],
    };
  }

  async bringPrinterBack({ id, saved, profile }: StoredPrinter): Promise<void> {
    await this.#kept(() => this.#store.putPrinter({ id, saved, profile }));
    await this.#sorted();
    this.told.value = null;
  }

  /** Draws the job on the bench for a printer; `null` for one that nobody has measured. */
  usePrinter(profile: PrinterProfile | null): void {
    this.bench.change('printer', (job) => withProfile(job, profile));
  }

  /** Puts the bytes of a model into the drawer; gives their SHA-256. */
  async putModel({ name, bytes }: { readonly name: string; readonly bytes: Uint8Array }): Promise<string> {
    const hash = sha256Hex(bytes);
    await this.#kept(() => this.#store.putModel({ hash, name, bytes }));
    return hash;
  }

  /** Keeps a model that the job on the bench refits under that name. */
  async keepModel(name: string, bytes: Uint8Array): Promise<void> {
    this.keeper.noteModel(name, await this.putModel({ name, bytes }));
  }

  /** Bytes of a model that the job on the bench refits; undefined where it is not there. */
  async model(name: string): Promise<Uint8Array | undefined> {
    const hash = this.keeper.models[name] ?? this.keeper.models[stepsOf(name).join('/')];
    return hash === undefined ? undefined : this.storedModel(hash);
  }

  /** Bytes of a model by their SHA-256; undefined where it is not there. */
  async storedModel(hash: string): Promise<Uint8Array | undefined> {
    return (await this.#store.model(hash))?.bytes;
  }

  /** Saves the job on the bench; false, and says so, where that cannot be done: another one would be its end. */
  async #mayLeave(): Promise<boolean> {
    await this.keeper.flush();
    if (!this.keeper.isUnsaved) return true;
    this.told.value = {
      kind: 'refused',
      lines: ['What you typed could not be saved, so it stays on the bench. Take it away as a file'],
      deeds: [{ label: 'take it away', do: () => this.exportJob(this.bench.job.peek()) }],
    };
    return false;
  }

  #lay(
    job: JobFile,
    id: string,
    models: Readonly<Record<string, string>>,
    sheet: SheetName = 'measure',
  ): void {
    this.bench.lay(freshHistory(job), sheet);
    void this.keeper.keep({ id, revision: 0, models });
  }

  async #changed(
    id: string,
    change: (there: NonNullable<Awaited<ReturnType<JobStore['job']>>>) => typeof there,
  ): Promise<void> {
    const next = await this.#kept(() => this.#store.update(id, (there) => there && change(there)));
    if (next) this.#tabs.say({ kind: 'saved', id, revision: next.revision });
    await this.refresh();
  }

  async #sorted(): Promise<void> {
    this.#tabs.say({ kind: 'sorted' });
    await this.refresh();
  }

  /** Does something to the store; what it refuses is told. */
  async #kept<T>(deed: () => Promise<T>): Promise<T | undefined> {
    try {
      return await deed();
    } catch (error) {
      const said = error instanceof Error ? error.message : String(error);
      this.told.value = {
        kind: 'refused',
        lines: [`The drawer does not take it: ${said}. Take the job away as a file`],
      };
      return undefined;
    }
  }

  #done(line: string): void {
    this.told.value = { kind: 'done', lines: [line] };
  }
}

const sheetNamed = (name: string, job: JobFile): SheetName =>
  sheetsOf(job).find((sheet) => sheet === name) ?? 'measure';

const context = createContext<Drawer | null>(null);
export const DrawerProvider = context.Provider;

/** The drawer of the bench around a component. Throws `RangeError` outside of one. */
export function useDrawer(): Drawer {
  const drawer = useContext(context);
  if (!drawer) throw new RangeError('useDrawer requires a DrawerProvider around it');
  return drawer;
}
