import { basename } from 'node:path';
import { fileBase } from '../job/fileBase.ts';

/** Name of the files made from a job file, without extension: its own in a form that every system takes. `instead` when
 *  nothing is left of it.
 *  @example baseName('jobs/../Enter key.job.json', 'stabiliser-clip') // => 'Enter-key' */
export const baseName = (path: string, instead: string): string => fileBase(basename(path), instead);
