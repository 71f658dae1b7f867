import { type ReadonlySignal, signal } from '@preact/signals';
import { stepsOf } from '../../src/job/stepsOf.ts';
import type { Drawer } from '../drawer/drawer.ts';
import type { DrawerShelf } from '../spine/modelShelf.ts';

type Models = Pick<Drawer, 'keeper' | 'model' | 'storedModel'>;

let open: (drawer: Models) => void = () => {};
const opened = new Promise<Models>((take) => {
  open = take;
});
const share = signal(0);

/** How much of the model is read that a worker reads, 0 to 1; told for large ones only. */
export const modelRead: ReadonlySignal<number> = share;

/** Models of the job on the bench and of those in the drawer, for every worker of the page. Answers once the drawer is open. */
export const modelShelf: DrawerShelf = {
  async hash(name) {
    const { models } = (await opened).keeper;
    return models[name] ?? models[stepsOf(name).join('/')];
  },
  bytes: async (name) => (await opened).model(name),
  async reads(now) {
    share.value = now;
  },
  stored: async (hash) => (await opened).storedModel(hash),
};

/** Says where models lie: once, when the drawer is open. */
export const openShelf = (drawer: Models): void => open(drawer);
