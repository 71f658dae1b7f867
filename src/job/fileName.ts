import type { MadeKind } from './madeFile.ts';

const endings: Readonly<Record<MadeKind, string>> = {
  stl: 'stl',
  '3mf': '3mf',
  drawing: 'svg',
  report: 'html',
};

/** Name of a file of a job; `part` is the id of the part it is about, empty when it is about them all.
 *  @example fileName('feet', 'stl', 'left') // => 'feet-left.stl' */
export const fileName = (base: string, kind: MadeKind, part = ''): string =>
  `${part === '' ? base : `${base}-${part}`}.${endings[kind]}`;
