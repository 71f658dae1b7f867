import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { fettle } from './fettle.ts';

const readme = readFileSync('README.md', 'utf8');
/** What stands within fences, line by line. */
const blocks = readme
  .split('```')
  .filter((_, k) => k % 2 === 1)
  .map((block) => block.split('\n').slice(1, -1));

test('the verdict that README shows is what the demo prints', async () => {
  const { stdout } = await fettle(['check', 'parts/stabiliser-clip/demo.job.json']);
  const said = stdout.split('\n');
  const block = blocks.find((lines) => lines[0]?.startsWith('Enter key clips')) ?? [];
  const shown = block.filter((line) => line.trim() !== '...');
  expect(shown.length).toBeGreaterThan(6);
  for (const line of shown) {
    const start = line.replace(/ \.\.\.$/, '');
    expect(
      said.some((one) => one === line || (start !== line && one.startsWith(start))),
      line,
    ).toBe(true);
  }
});

test('every command and option that README shows is there', async () => {
  const shown = blocks.flat().flatMap((line) => line.match(/^fettle (?:\S+ ?)+/)?.[0].trim() ?? []);
  expect(shown.length).toBeGreaterThan(20);
  const words = new Map<string, Set<string>>();
  for (const line of shown) {
    const [name, ...rest] = line.split(/\s+/).slice(1) as [string, ...string[]];
    const key = name === 'printer' ? `printer ${rest[0]}` : name;
    words.set(key, new Set([...(words.get(key) ?? []), ...rest.filter((word) => word.startsWith('--'))]));
  }
  for (const [name, options] of words) {
    const { code, stdout } = await fettle([...name.split(' '), '--help']);
    expect(code, name).toBe(0);
    for (const option of options) expect(stdout, `fettle ${name}`).toContain(`${option} `);
  }
});

test('what README and handbook point at is there', () => {
  for (const page of ['README.md', 'DEVELOPERS.md']) {
    const paths = [...readFileSync(page, 'utf8').matchAll(/\]\((?!https?:)([^)#]+)\)/g)].map(
      (hit) => hit[1]!,
    );
    for (const path of paths) expect(existsSync(path), `${page}: ${path}`).toBe(true);
  }
});
