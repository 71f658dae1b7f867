import type { Inspection } from './inspection.ts';
import { readingWorth } from './inspectionWords.ts';

/** What to do next with a print that callipers have read; ids as in the result.
 *  `read`: nothing is read yet. `measure`: nothing of it can be, before the machine is measured. `again`: readings that do
 *  not agree, before anything else. `record`: it is to be printed again, and this one goes on record. `rework`: take
 *  plastic off, then read that. `filed`: was filed and not read since. `rest`: go on with what is unread. `closer`: a
 *  reading of print or machine that would tell more. `try`: try it on the machine. */
export type NextAfterInspection =
  | { readonly kind: 'read' | 'measure' | 'record' | 'rest' | 'try' }
  | { readonly kind: 'again' | 'rework' | 'filed'; readonly ids: readonly string[] }
  | { readonly kind: 'closer'; readonly of: 'print' | 'machine'; readonly id: string };

/** More readings than this are not asked for at a time. */
const CLOSER = 2;

/** What to do next, in order. */
export function nextAfterInspection({
  sizes,
  unread,
  verdict,
}: Pick<Inspection, 'sizes' | 'unread' | 'verdict'>): readonly NextAfterInspection[] {
  if (verdict === undefined) return [{ kind: unread.length === 0 ? 'measure' : 'read' }];
  const idsOf = (which: (size: Inspection['sizes'][number]) => boolean) =>
    sizes.filter(which).map(({ id }) => id);
  // Nothing is filed or thrown away for a slip of the callipers.
  const doubtful = idsOf((size) => size.cause === 'reading' && size.verdict !== 'pass');
  if (doubtful.length > 0) return [{ kind: 'again', ids: doubtful }];
  if (verdict === 'reprint') return [{ kind: 'record' }];
  const rework = idsOf((size) => size.verdict === 'rework' && !size.stale);
  const stale = idsOf((size) => size.stale);
  if (rework.length + stale.length > 0)
    return [
      ...(rework.length > 0 ? [{ kind: 'rework', ids: rework } as const] : []),
      ...(stale.length > 0 ? [{ kind: 'filed', ids: stale } as const] : []),
    ];
  const worth = sizes
    .filter((size) => size.verdict === 'close')
    .flatMap((size) => readingWorth(size) ?? [])
    .filter((one, k, all) => all.findIndex((other) => other.of === one.of && other.id === one.id) === k);
  return [
    ...(unread.length > 0 ? [{ kind: 'rest' } as const] : []),
    ...worth.slice(0, CLOSER).map((one) => ({ kind: 'closer', ...one }) as const),
    { kind: 'try' },
  ];
}
