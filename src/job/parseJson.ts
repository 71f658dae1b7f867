import { type AnyNode, type DocumentNode, iterator, parse } from '@humanwhocodes/momoa';
import type { Problem } from './problem.ts';

const allowed = 'JSON, each name once in an object';

/** The value of a JSON text, or where it stops being JSON: line and column, both from 1. A name given twice in one
 *  object is refused, because the first one would vanish without a word. Never throws.
 *  The library is asked beside `JSON.parse` because that names no place for some mistakes and swallows the second. */
export function parseJson(text: string, field: string): { readonly json: unknown } | Problem {
  try {
    const tree = parse(text, { mode: 'json' });
    const twice = doubledName(tree);
    if (twice !== undefined) return { code: 'json_name_twice', field, value: twice, allowed };
    return { json: JSON.parse(text) };
  } catch (error) {
    return { code: 'json_malformed', field, value: `not JSON${place(error)}`, allowed };
  }
}

function place(error: unknown): string {
  if (error instanceof RangeError) return ', nested too deep';
  if (!(error instanceof Error)) return '';
  const { line, column } = error as { line?: number; column?: number };
  if (line === undefined || column === undefined) {
    // JSON.parse alone is this strict about control characters, and it names them.
    return `, ${firstLine(error.message)}`;
  }
  const what = firstLine(error.message)
    .replace(/\s*\(\d+:\d+\)$/, '')
    .replace(/\.$/, '');
  return ` at line ${line}, column ${column}: ${what.charAt(0).toLowerCase()}${what.slice(1)}`;
}

const firstLine = (text: string): string => text.split('\n', 1)[0]!;

function doubledName(tree: DocumentNode): string | undefined {
  for (const step of iterator(tree)) {
    // The library types its steps by their common base; nodes are all of one of its kinds.
    const node = step.node as AnyNode;
    if (step.phase !== 'enter' || node.type !== 'Object') continue;
    const seen = new Set<string>();
    for (const { name } of node.members) {
      const text = name.type === 'String' ? name.value : name.name;
      if (seen.has(text)) {
        const { line, column } = name.loc.start;
        return `"${text.slice(0, 100)}" a second time at line ${line}, column ${column}`;
      }
      seen.add(text);
    }
  }
  return undefined;
}
