import type { MakeResult } from '../../../src/job/result.ts';

type Told = Pick<MakeResult, 'parts' | 'findings'>;

/** Of which part a meeting surface is, and what its family calls it: a job asks for fits by that, whatever the part.
 *  @example surfaceOf(of a set, 'front-left.hole') // => { part: 'front-left', own: 'hole' } */
export function surfaceOf(
  { parts }: Pick<Told, 'parts'>,
  id: string,
): { readonly part: string; readonly own: string } {
  const part = parts.find((one) => one.id !== '' && id.startsWith(`${one.id}.`))?.id ?? '';
  return { part, own: part === '' ? id : id.slice(part.length + 1) };
}

/** Number of the finding that judges a meeting surface, its place in the list; null where there is none. */
export function numberOf(result: Told, id: string): number | null {
  const { part, own } = surfaceOf(result, id);
  const place = (of: string) => result.findings.findIndex((finding) => finding.id === of);
  // What is said of every part in the same words is said once, without the name of a part.
  const found = [part === '' ? '' : `${part}.clearance.${own}`, `clearance.${own}`]
    .map(place)
    .find((k) => k >= 0);
  return found === undefined ? null : found + 1;
}
