/** Names that one system or another keeps for devices. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/i;
const LONGEST = 80;

/** Name of the files made from a job, without extension: the name or title given, reduced to letters, digits, `_`, `-` and
 *  inner points, so that it names a file in one folder on every system. `instead` when nothing is left.
 *  @example fileBase('Enter key.job.json', 'stabiliser-clip') // => 'Enter-key' */
export function fileBase(given: string, instead: string): string {
  const name = given
    .normalize('NFC')
    .replace(/(\.job)?\.json$/i, '')
    .replace(/[^\p{L}\p{N}._-]+/gu, '-')
    .replace(/\.{2,}/g, '.')
    .slice(0, LONGEST)
    .replace(/^[.-]+|[.-]+$/g, '');
  return name === '' || RESERVED.test(name.split('.')[0]!) ? instead : name;
}
