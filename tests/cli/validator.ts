import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import { expect } from 'vitest';
import { jsonSchema } from '../../src/job/formats/jsonSchema.ts';
import type { FormatName } from '../../src/job/formats/names.ts';

/** A validator of JSON Schema that is not the library the schemas come from. Strict, but for two things: a number that
 *  may be null is a union of two types, and `date` is a format that the validator knows from an add-on only. */
export function validator(schema: string): ValidateFunction {
  const formats = { date: /^\d{4}-\d{2}-\d{2}$/ };
  return new Ajv2020({ strict: true, allowUnionTypes: true, allErrors: true, formats }).compile(
    JSON.parse(schema),
  );
}

/** Fails unless the text is JSON of that format, by its JSON Schema. */
export function expectFormat(name: FormatName, text: string): void {
  const valid = validator(jsonSchema(name));
  valid(JSON.parse(text));
  expect(valid.errors, name).toBeNull();
}
