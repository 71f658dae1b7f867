import { z } from 'zod';
import { resultSchema } from '../job/resultSchema.ts';
import { jobSchema } from '../job/schema.ts';
import { printerProfileSchema } from '../printer/profile.ts';

const schemas = { job: jobSchema, printer: printerProfileSchema, result: resultSchema } as const;

/** JSON Schema (draft 2020-12) of one of the file formats, as the text of a file. Jobs and printer profiles as a
 *  person may write them, with what has a normal value left out; results as they are written. */
export function jsonSchema(name: keyof typeof schemas): string {
  const schema = z.toJSONSchema(schemas[name], { io: name === 'result' ? 'output' : 'input' });
  return `${JSON.stringify(schema, null, 2)}\n`;
}
