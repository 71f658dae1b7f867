import { type ReadonlySignal, signal } from '@preact/signals';
import { stepsOf } from '../../src/job/stepsOf.ts';
import type { Drawer } from '../drawer/drawer.ts';
import type { DrawerShelf, Sought } from '../spine/modelShelf.ts';

type Models = Pick<Drawer, 'keeper' | 'model' | 'storedModel'>;

let open: (drawer: Models) => void = () => {};
const opened = new Promise<Models>((take) => {
  open = take;
});

/** What a worker does with a large model: how much of that is done, 0 to 1, and what is looked for on it once it is read. */
export interface ModelDoing {
  readonly share: number;
  readonly seeks: Sought | undefined;
}

const doing = signal<ModelDoing | null>(null);

/** What is being done with a large model now; null for nothing. */
export const modelDoing: ReadonlySignal<ModelDoing | null> = doing;

/** Models of the job on the bench and of those in the drawer, for every worker of the page. Answers once the drawer is open. */
export const modelShelf: DrawerShelf = {
  async hash(name) {
    const { models } = (await opened).keeper;
    return models[name] ?? models[stepsOf(name).join('/')];
  },
  bytes: async (name) => (await opened).model(name),
  async reads(share, seeks) {
    doing.value = share > 0 ? { share, seeks } : null;
  },
  stored: async (hash) => (await opened).storedModel(hash),
};

/** Nothing is being done with a model any more: who did it may have been stopped. */
export const nothingDone = (): void => {
  doing.value = null;
};

/** Says where models lie: once, when the drawer is open. */
export const openShelf = (drawer: Models): void => open(drawer);
