import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from './installed.ts';

const text = (path: string): string => readFileSync(join(root, path), 'utf8');
const handbook = text('DEVELOPERS.md');
const section = (title: string): string => {
  const from = handbook.indexOf(`\n## ${title}\n`);
  expect(from, title).toBeGreaterThan(0);
  return handbook.slice(from, handbook.indexOf('\n## ', from + 4));
};
const manifest = JSON.parse(text('package.json')) as Readonly<
  Record<'dependencies' | 'devDependencies', Readonly<Record<string, string>>>
>;

describe('One more part', () => {
  it('shows the spacer as it stands, step by step and in its order', () => {
    const declaration = text('parts/spacer/index.ts');
    const shown = [...section('One more part').matchAll(/```ts\n([\s\S]*?)```/g)].map(
      ([, code = '']) => code,
    );
    expect(shown.length).toBeGreaterThanOrEqual(9);
    const places = shown.map((code) => declaration.indexOf(code));
    expect(places.filter((place) => place < 0)).toEqual([]);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  it('is about a part that has all that the recipe asks for', () => {
    expect(readdirSync(join(root, 'parts/spacer')).sort()).toEqual(
      expect.arrayContaining(['README.md', 'demo.job.json', 'index.ts', 'picture.png']),
    );
    expect(text('parts/index.ts')).toContain("from './spacer/index.ts'");
    expect(readdirSync(join(root, 'tests/parts'))).toContain('spacer.test.ts');
  });
});

describe('Dependencies', () => {
  const [, installed = '', bundled = ''] = section('Dependencies').split('| package | why |');
  const named = (table: string): string[] =>
    table
      .split('\n')
      .filter((line) => line.startsWith('| `'))
      .flatMap((line) => [...line.split('|')[1]!.matchAll(/`([^`]+)`/g)].map(([, name]) => name!));

  it('names each package that is installed with Fettle, once and no other', () => {
    expect(named(installed).sort()).toEqual(Object.keys(manifest.dependencies).sort());
  });

  it('names each that is bundled, once and no other', () => {
    const names = named(bundled);
    expect(new Set(names).size).toBe(names.length);
    const matches = (name: string, each: string) =>
      name.endsWith('*') ? each.startsWith(name.slice(0, -1)) : each === name;
    for (const name of names)
      expect(
        Object.keys(manifest.devDependencies).some((each) => matches(name, each)),
        name,
      ).toBe(true);
    const known = [...names, ...Object.keys(manifest.dependencies)];
    // Else a scan that finds nothing would pass.
    expect(imported().size).toBeGreaterThan(30);
    for (const each of imported())
      expect(
        known.some((name) => matches(name, each)),
        each,
      ).toBe(true);
  });
});

/** Packages that the sources of command, API and page import, styles included. */
function imported(): ReadonlySet<string> {
  const files = ['src', 'parts', 'viewer'].flatMap((folder) =>
    (readdirSync(join(root, folder), { recursive: true }) as string[])
      .filter((name) => /\.(tsx?|css)$/.test(name) && !/(^|\/)(vite\.config|serve\/)/.test(name))
      .map((name) => join(folder, name)),
  );
  const from = /(?:\bfrom |^import |\bimport\(|@import )['"]((?:@[\w-]+\/)?[a-z][\w.-]*)(?:\/[^'"]*)?['"]/gm;
  const names = files.flatMap((path) => [...text(path).matchAll(from)].map(([, name = '']) => name));
  return new Set(names);
}

it('CHANGELOG: each line begins with a verb and says one thing', () => {
  const lines = text('CHANGELOG.md')
    .split('\n')
    .filter((line) => line.startsWith('- '));
  expect(lines.length).toBeGreaterThan(5);
  for (const line of lines) expect(line).toMatch(/^- (Add|Change|Fix|Remove|Rename|Deprecate) [^\n]*[.`]$/);
});
