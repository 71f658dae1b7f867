import { fileBase } from './fileBase.ts';

/** What the files of a plate begin with; `first` is the file of its first job, or the name it was given.
 *  @example plateBase('keys.job.json') // => 'keys.plate' */
export const plateBase = (first: string): string => `${fileBase(first, 'parts')}.plate`;
