import { readFileSync } from 'node:fs';
import { validateXML } from 'xmllint-wasm';

const grammar = readFileSync(new URL('model.rng', import.meta.url), 'utf8');
const PAGES = 4096;

/** What libxml2 finds wrong with a model part by the tables of the core specification; empty when nothing is. */
export async function faultsOfModel(model: string): Promise<readonly string[]> {
  const { errors } = await validateXML({
    xml: [{ fileName: 'model.xml', contents: model }],
    schema: [grammar],
    extension: 'relaxng',
    initialMemoryPages: 512,
    maxMemoryPages: PAGES,
  });
  return errors.map(({ message }) => message);
}
