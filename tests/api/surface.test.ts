import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const at = (path: string): string => readFileSync(new URL(`../../src/api/${path}`, import.meta.url), 'utf8');

/** What the list names, with the file it comes from: types and values. */
const listed = [...at('index.ts').matchAll(/^export (type )?\{([^}]*)\} from '([^']+)';/gm)].flatMap(
  ([, allTypes, names = '', path = '']) =>
    names
      .split(',')
      .map((name) => name.trim())
      .filter((name) => name !== '')
      .map((name) => {
        const [original = '', called = original] = name.replace(/^type /, '').split(' as ');
        return { original, called, path, isType: allTypes !== undefined || name.startsWith('type ') };
      }),
);

/** The comment that stands right before a declaration; undefined where there is none. */
const commentOf = (source: string, name: string): string | undefined => {
  const declared = new RegExp(
    `((?:/\\*\\*(?:(?!\\*/)[\\s\\S])*\\*/\\n)?)export (?:async )?(?:abstract )?(?:function|const|class|interface|type) ${name}\\b`,
  ).exec(source);
  if (!declared) throw new Error(`${name} is not declared where the list says`);
  return declared[1] === '' ? undefined : declared[1];
};

describe('the public surface', () => {
  it('is one list, all of which is understood here', () => {
    const lines = at('index.ts')
      .replace(/^\/\/.*$/gm, '')
      .split(';');
    expect(lines.filter((line) => line.trim() !== '' && !/^\s*export (type )?\{/.test(line))).toEqual([]);
    expect(listed.filter(({ isType }) => !isType).length).toBeGreaterThan(25);
  });

  it.each(listed)('$called says what it is', ({ original, path }) => {
    const comment = commentOf(at(path), original);
    expect(comment?.length ?? 0).toBeGreaterThan(30);
  });

  // What can go wrong is part of what a function is; these can do nothing wrong.
  const sure = [
    ...[
      'sentence',
      'version',
      'jobText',
      'listFamilies',
      'jsonSchema',
      'listFormats',
      'locateWasm',
      'printerText',
    ],
    'Refused',
  ];
  it.each(listed.filter(({ isType, called }) => !isType && !sure.includes(called)))(
    '$called says what it throws',
    ({ original, path }) => expect(commentOf(at(path), original)).toMatch(/Throws[\s*]+`Refused`/),
  );

  it('is needed by the README: every function stands there', () => {
    const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
    for (const { called, isType } of listed) if (!isType) expect(readme).toContain(`\`${called}\``);
  });
});
