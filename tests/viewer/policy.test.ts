import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { contentSecurityPolicy, securityHeaders } from '../../viewer/securityHeaders.ts';

const page = readFileSync(new URL('../../viewer/index.html', import.meta.url), 'utf8');

/** A policy as W3C "Content Security Policy Level 3", section 2.2.1, reads one: directives parted by semicolons, the first
 *  word their name in lower case, and of two of a name the first one counts. */
function parsed(policy: string): ReadonlyMap<string, readonly string[]> {
  const directives = new Map<string, readonly string[]>();
  for (const token of policy.split(';')) {
    const [name, ...sources] = token.trim().split(/\s+/);
    if (name && !directives.has(name.toLowerCase())) directives.set(name.toLowerCase(), sources);
  }
  return directives;
}

const metaPolicy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1];

test('page and server say the same policy', () => {
  expect(parsed(metaPolicy!)).toEqual(parsed(contentSecurityPolicy));
  const { 'frame-ancestors': ancestors, ...rest } = Object.fromEntries(
    parsed(securityHeaders['Content-Security-Policy']),
  );
  // A header alone may say this one: section 3.3 has a page's own word on it passed over.
  expect(ancestors).toEqual(["'none'"]);
  expect(rest).toEqual(Object.fromEntries(parsed(contentSecurityPolicy)));
});

test('nothing inline, no eval, nothing from elsewhere', () => {
  const policy = parsed(metaPolicy!);
  expect(policy.get('default-src')).toEqual(["'none'"]);
  expect(policy.get('script-src')).toEqual(["'self'", "'wasm-unsafe-eval'"]);
  const sources = [...policy.values()].flat();
  for (const wide of ["'unsafe-inline'", "'unsafe-eval'", '*', 'https:', 'http:'])
    expect(sources).not.toContain(wide);
  // Section 6.3: what fetches, frames or sends forms is closed by default-src or by its own word.
  for (const name of ['form-action', 'base-uri']) expect(policy.get(name)).toEqual(["'none'"]);
});

test('the page itself keeps to it', () => {
  expect(page).not.toMatch(/<style|\sstyle=|\son\w+=|javascript:/i);
  for (const [, attributes, inside] of page.matchAll(/<script([^>]*)>([^<]*)/g)) {
    expect(attributes).toMatch(/\ssrc="\.\//);
    expect(inside).toBe('');
  }
});
