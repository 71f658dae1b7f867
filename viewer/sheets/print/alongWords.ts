import type { Problem } from '../../../src/job/problem.ts';
import { problemsHeadline } from '../../verdict/verdictWords.ts';
import { refusalWords } from './refusalWords.ts';

/** What differs, by its field: what is printed at once is printed alike. */
const differing: Readonly<Record<string, string>> = {
  'printer.name': 'another printer',
  material: 'another filament',
  'printer.layer': 'another layer',
  'printer.firstLayer': 'another first layer',
  'printer.lineWidth': 'another line width',
  'printer.bed': 'another bed',
};

/** Why a job cannot be printed along, in one line.
 *  @example whyNot([{ code: 'plate_differs', field: 'material', value: 'TPU', allowed: 'PETG, as in this job' }])
 *  // => 'another filament: TPU; wanted: PETG, as in this job' */
export function whyNot(problems: readonly Problem[]): string {
  const [first] = problems;
  if (!first) return '';
  if (first.code === 'plate_differs')
    return `${differing[first.field] ?? first.field}: ${first.value}; wanted: ${first.allowed}`;
  if (first.code.startsWith('plate_')) return `does not fit: ${refusalWords(first)}`;
  const missing = problems.every(({ code }) => code === 'reading_missing');
  return missing
    ? `not ready: ${problemsHeadline(problems).toLowerCase().replace(/\.$/, '')}`
    : `not ready: ${refusalWords(first)}${problems.length > 1 ? `, and ${problems.length - 1} more` : ''}`;
}
