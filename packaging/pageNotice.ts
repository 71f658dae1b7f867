import type { Plugin } from 'vite';
import { noticeOf, packagesOf } from './notice.ts';

/** Writes THIRD-PARTY.txt beside the page: the licences of what in it is not Fettle's, its workers included. `besides`: packages
 *  whose files come in by another way than imports. */
export function pageNotice(besides: readonly string[]): {
  readonly page: Plugin;
  readonly worker: () => Plugin;
} {
  const files = new Set(besides.map((name) => `node_modules/${name}/package.json`));
  const gather = (ids: Iterable<string>): void => {
    for (const id of ids)
      if (id.includes('node_modules/')) files.add(id.replace(/[?#].*$/, '').replace(/^\0+/, ''));
  };
  return {
    worker: () => ({
      name: 'licences of a worker',
      generateBundle() {
        gather(this.getModuleIds());
      },
    }),
    page: {
      name: 'licences of the page',
      generateBundle() {
        gather(this.getModuleIds());
        const source = noticeOf('the page', packagesOf([...files]));
        this.emitFile({ type: 'asset', fileName: 'THIRD-PARTY.txt', source });
      },
    },
  };
}
