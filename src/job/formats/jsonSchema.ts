import { z } from 'zod';
import { formats } from './index.ts';
import type { FormatName } from './names.ts';

/** Formats that a person may write, with what has a normal value left out. */
const written: readonly FormatName[] = ['job', 'printer'];

/** JSON Schema (draft 2020-12) of one of the formats, as the text of a file. Jobs and printer profiles as a person may
 *  write them, everything else as Fettle writes it. */
export function jsonSchema(name: FormatName): string {
  const schema = z.toJSONSchema(formats[name], { io: written.includes(name) ? 'input' : 'output' });
  return `${JSON.stringify(schema, null, 2)}\n`;
}
