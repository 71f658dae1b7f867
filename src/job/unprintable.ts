import type { Problem } from './problem.ts';
import { shown } from './zodProblems.ts';

/** Texts with control characters, which nobody types and which could tell a terminal what to do, or with those that turn the
 *  direction of writing over, so that a name reads as another; blanks and ends of lines are none, nor are the marks that
 *  Hebrew and Arabic need. */
export function unprintable(whole: unknown): Problem[] {
  const found: Problem[] = [];
  // Not by calling itself: a file may be nested as deep as JSON can be read.
  const open: { readonly value: unknown; readonly field: string }[] = [{ value: whole, field: '' }];
  for (let one = open.pop(); one !== undefined; one = open.pop()) {
    const { value, field } = one;
    if (typeof value === 'string') found.push(...oddText(value, field));
    if (typeof value !== 'object' || value === null) continue;
    const inside = Object.entries(value).flatMap(([key, inner]) => [
      { value: key, field },
      { value: inner, field: fieldOf(value, field, key) },
    ]);
    open.push(...inside.reverse());
  }
  return found;
}

function oddText(value: string, field: string): Problem[] {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for.
  if (!/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/.test(value))
    return [];
  const reason = 'holds control characters';
  return [{ code: 'text_unprintable', field, value: shown(value), allowed: 'plain text', reason }];
}

const fieldOf = (of: object, field: string, key: string): string =>
  Array.isArray(of) ? `${field}[${key}]` : field === '' ? key : `${field}.${key}`;
