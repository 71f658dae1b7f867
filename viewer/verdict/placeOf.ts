import type { SheetName } from '../bench/bench.ts';

/** Where a field of the job is edited. */
export interface Place {
  /** Null: in the title block, which every sheet has. */
  readonly sheet: SheetName | null;
  /** Id of the reading, for those; the sheet of readings takes the cursor there. */
  readonly reading?: string;
  /** What marks the element that edits it, the nearest first: `data-field`, and ids. */
  readonly fields: readonly string[];
}

/** Fields of the job by what they are a part of; `coupon` and `bed` are places of the sheet Print, `print` one of Try. */
const sheetOf: Readonly<Record<string, SheetName | null>> = {
  title: null,
  quantity: null,
  material: null,
  author: null,
  licence: null,
  printer: 'print',
  ladders: 'print',
  coupon: 'print',
  bed: 'print',
  fits: 'fit',
  trials: 'try',
  print: 'try',
  donor: 'model',
};

/** Where a field is edited, by its path in a problem: `readings.socketWidth[2]`, `material`. Fields nobody names are on the
 *  sheet of readings, where the part is told how it is built.
 *  @example placeOf('material') // => { sheet: null, fields: ['material'] } */
export function placeOf(field: string): Place {
  const path = field.replace(/\[\d+\]/g, '');
  const [head = '', own] = path.split('.');
  const sheet = Object.hasOwn(sheetOf, head) ? sheetOf[head]! : 'measure';
  // From the very field to what it is a part of.
  const fields = path.split('.').map((_, k, all) => all.slice(0, all.length - k).join('.'));
  return {
    sheet,
    fields: fields.filter((one) => one !== ''),
    ...(head === 'readings' && own && { reading: own }),
  };
}

/** The field that a cause of doubt is read from, by its id in the shares: `reading:socketWidth`, `printer:scale.x`. Null for
 *  one that no field tells.
 *  @example fieldOfDoubt('resolution:socketWidth') // => 'readings.socketWidth' */
export function fieldOfDoubt(id: string): string | null {
  const [kind, of = ''] = [id.slice(0, id.indexOf(':')), id.slice(id.indexOf(':') + 1)];
  if (kind === 'reading' || kind === 'resolution') return `readings.${of}`;
  if (kind === 'calliper') return 'callipers';
  if (kind === 'printer') return 'printer';
  return kind === 'ladder' ? `ladders.${of}` : null;
}
