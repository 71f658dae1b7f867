import exceptions from 'spdx-exceptions/index.json' with { type: 'json' };
import parse from 'spdx-expression-parse';
import deprecated from 'spdx-license-ids/deprecated.json' with { type: 'json' };
import ids from 'spdx-license-ids/index.json' with { type: 'json' };
import { nearest } from './nearest.ts';
import type { Problem } from './problem.ts';
import { shown } from './zodProblems.ts';

/** No two ids differ in the case of their letters alone; a test holds the lists to it. */
const known = new Map([...ids, ...deprecated, ...exceptions].map((id) => [id.toLowerCase(), id]));
const REFERENCE = /^(document|license)ref-/i;
const references: Readonly<Record<string, string>> = {
  document: 'DocumentRef-',
  license: 'LicenseRef-',
};

/** Terms on which files may be used, as an expression of SPDX 2.3, annex D: ids of the SPDX licence list, joined by AND,
 *  OR, WITH and brackets, or a `LicenseRef-` of one's own. Letter case, and blanks within a single id, are put right;
 *  nothing else is guessed. Never throws.
 *  @example licenceOf('cc by-sa 4.0') // => { licence: 'CC-BY-SA-4.0' }
 *  @example licenceOf('mit or apache-2.0') // => { licence: 'MIT OR Apache-2.0' } */
export function licenceOf(text: string): { readonly licence: string } | Problem {
  const told = text.trim().replace(/\s+/g, ' ');
  const single = known.get(dashed(told));
  const licence = single ?? told.replace(/[^\s()+:]+/g, inItsCase);
  if (isExpression(licence)) return { licence };

  const stranger = (told.match(/[^\s()+:]+/g) ?? []).find((word) => !isWord(word));
  const likely = nearLicence(dashed(told)) ?? nearLicence(stranger?.toLowerCase() ?? '');
  const hint = likely === undefined ? '' : `. Did you mean ${likely}?`;
  return {
    code: 'licence_unknown',
    field: 'licence',
    value: shown(text),
    allowed: `an SPDX expression, such as CC-BY-4.0, CC-BY-SA-4.0, CC0-1.0 or MIT${hint}`,
    reason: stranger === undefined ? 'is no whole expression' : 'is not in the SPDX licence list',
  };
}

const dashed = (text: string): string => text.replaceAll(' ', '-').toLowerCase();

function inItsCase(word: string): string {
  if (/^(and|or|with)$/i.test(word)) return word.toUpperCase();
  return (
    known.get(word.toLowerCase()) ??
    word.replace(REFERENCE, (_, kind: string) => references[kind.toLowerCase()]!)
  );
}

const isWord = (word: string): boolean =>
  /^(and|or|with)$/i.test(word) || known.has(word.toLowerCase()) || REFERENCE.test(word);

function isExpression(text: string): boolean {
  try {
    parse(text);
    return true;
  } catch {
    return false;
  }
}

/** The latest version where a version is all that is missing, or the id a mistyped one most likely meant. */
function nearLicence(name: string): string | undefined {
  const versions = ids
    .filter(
      (id) => name !== '' && id.toLowerCase().startsWith(`${name}-`) && /^\d/.test(id.slice(name.length + 1)),
    )
    .sort(
      (a, b) => Number.parseFloat(a.slice(name.length + 1)) - Number.parseFloat(b.slice(name.length + 1)),
    );
  const latest = versions.findLast((id) => /-[\d.]+$/.test(id)) ?? versions.at(-1);
  // Some id is near any three letters.
  return latest ?? (name.length > 3 ? nearest(name, ids) : undefined);
}
