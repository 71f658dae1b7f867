import { CsvError, parse } from 'csv-parse/browser/esm/sync';
import { type Problem, Refused } from '../problem.ts';
import { shown } from '../zodProblems.ts';
import type { RawReading, RawReadings, ReadThings } from './rawReadings.ts';

const allowedOf = ({ what, example }: ReadThings): string =>
  `rows of ${what} and readings, such as "${example},4.79,4.80", with comma, semicolon or tab between`;

const ID = /^(feature|interface|id)$/i;
const NUMBER = /^(number|no\.?|nr\.?|#)$/i;
const READING = /^(readings?|values?|measured|mm)\b/i;

/** Readings from a table: a row is a feature and one or more readings of it; a feature may have several rows. Comma,
 *  semicolon or tab between cells, whichever the first row holds (semicolon and tab before comma, so that both leave
 *  the decimal comma alone). A first row of titles is optional; with one, columns that are none of feature, interface, id,
 *  number or reading are passed over. Rows that begin with # are remarks. Throws `Refused`.
 *  @example csvReadings('bore.3;4,79;4,80', { what: 'feature', example: 'bore.3' }).readings // => [{ feature: 'bore.3', texts: ['4,79', '4,80'], where: 'line 1' }] */
export function csvReadings(text: string, things: ReadThings): RawReadings {
  const rows = tableOf(text, things);
  const [first] = rows;
  if (first === undefined) return { readings: [], once: false };
  const titles = first.cells.map((cell) => cell.trim());
  const headed = titles.some((title) => ID.test(title) || NUMBER.test(title));
  if (!headed) return { readings: rows.map((row) => readingIn(row, [0], following(row))), once: false };

  // Whichever names the feature in a row: the id goes before the number.
  const keys = [ID, NUMBER].flatMap((pattern) =>
    titles.flatMap((title, k) => (pattern.test(title) ? [k] : [])),
  );
  const columns = titles.flatMap((title, k) => (READING.test(title) ? [k] : []));
  if (columns.length === 0) {
    throw new Refused([
      {
        code: 'csv_without_readings',
        field: `line ${first.line}`,
        value: shown(titles.join(', ')),
        allowed: 'a column with the title reading, value or measured',
      },
    ]);
  }
  // Titles of one reading column go on over what stands to its right without a title of its own.
  const readings = rows.slice(1).map((row) => {
    const untitled = row.cells.flatMap((_, k) =>
      k > Math.max(...columns) && (titles[k] ?? '') === '' ? [k] : [],
    );
    return readingIn(row, keys, [...columns, ...untitled]);
  });
  return { readings, once: false };
}

interface Row {
  readonly line: number;
  readonly cells: readonly string[];
}

const following = ({ cells }: Row): readonly number[] => cells.slice(1).map((_, k) => k + 1);

function readingIn({ cells, line }: Row, keys: readonly number[], columns: readonly number[]): RawReading {
  const cell = (k: number) => cells[k]?.trim() ?? '';
  return {
    feature: keys.map(cell).find((key) => key !== '') ?? '',
    texts: columns.map(cell).filter((text) => text !== ''),
    where: `line ${line}`,
  };
}

function tableOf(text: string, things: ReadThings): readonly Row[] {
  const plain = text.replace(/^\uFEFF/, '');
  const firstLine = plain.split(/\r\n|\r|\n/).find((line) => line.trim() !== '' && !/^\s*#/.test(line)) ?? '';
  const delimiter = [';', '\t'].find((mark) => firstLine.includes(mark)) ?? ',';
  // A remark is a whole line: # may also be the title of the column of numbers.
  const kept = plain.replace(/^[ \t]*#(?![ \t]*[;,\t]).*$/gm, '');
  try {
    const rows = parse(kept, {
      delimiter,
      relax_column_count: true,
      // An inch mark is a quotation mark to a table.
      relax_quotes: true,
      skip_empty_lines: true,
      skip_records_with_empty_values: true,
      info: true,
    }) as unknown as { info: { lines: number }; record: string[] }[];
    return rows.map(({ info, record }) => ({ line: info.lines, cells: record }));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = Reflect.get(error, 'lines');
    const problem: Problem = {
      code: 'csv_malformed',
      field: typeof line === 'number' ? `line ${line}` : '',
      value: 'a quotation mark that is not closed or stands inside a cell',
      allowed: allowedOf(things),
    };
    throw new Refused([problem]);
  }
}
