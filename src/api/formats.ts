import { jsonSchema as textOf } from '../job/formats/jsonSchema.ts';
import { type FormatName, formatNames } from '../job/formats/names.ts';

/** Every form of JSON that there is a schema of, with what it is.
 *  @example Object.keys(listFormats()).slice(0, 3) // => ['job', 'printer', 'result'] */
export const listFormats = (): Readonly<Record<FormatName, string>> => formatNames;

/** The JSON Schema (draft 2020-12) of a format, as a value.
 *  @example jsonSchema('result').description // => 'Fettle result' */
export const jsonSchema = (name: FormatName): Readonly<Record<string, unknown>> => JSON.parse(textOf(name));
