import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, inject, test } from 'vitest';
import { demoJob } from '../cli/fettle.ts';
import { hostileBundle } from '../job/hostileBundle.ts';
import { drawerOut, openFiles, settled, toSheet } from './hands.ts';
import { visits } from './visits.ts';

const { open, nothingWrong } = visits();

const markup = '<img src=x onerror="document.title=\'broken in\'"><script>alert(1)</script>"\'>';
const demo = JSON.parse(readFileSync(demoJob, 'utf8'));

/** Elements that only a text taken for markup could have made. */
const foreign = (page: Page) =>
  page.evaluate(() =>
    [
      ...document.querySelectorAll(
        'img, iframe, object, embed, base, script:not([src]), [onerror], a[href^=java]',
      ),
    ].map(({ outerHTML }) => outerHTML.slice(0, 120)),
  );

test('texts of a job and of a printer stay texts on every sheet, whatever they hold', async () => {
  const page = await open();
  page.on('dialog', () => expect.unreachable('a text was run'));
  const job = {
    ...demo,
    title: markup,
    note: markup,
    author: markup,
    callipers: { ...demo.callipers, name: markup.slice(0, 80) },
    printer: { ...demo.printer, name: markup.slice(0, 60) },
  };
  await openFiles(page, [{ name: `${markup}.job.json`, bytes: JSON.stringify(job) }]);
  await page.getByRole('region', { name: 'Done' }).getByText('is on the bench').waitFor();
  await settled(page);
  for (const name of ['Measure', 'Fit', 'Print', 'Try'] as const) {
    await toSheet(page, name);
    expect(await foreign(page), name).toEqual([]);
  }
  await drawerOut(page);
  expect(await foreign(page)).toEqual([]);
  expect(await page.title()).not.toBe('broken in');
  // It is there, as it was written.
  const values = await page
    .locator('.title-block input')
    .evaluateAll((all) => all.map((input) => (input as HTMLInputElement).value));
  expect(values).toContain(markup);
});

test('lettering of a part is cut as letters or refused as text', async () => {
  const page = await open();
  const cover = JSON.parse(readFileSync('parts/socket-cover/demo.job.json', 'utf8'));
  await openFiles(page, [
    { name: 'cover.job.json', bytes: JSON.stringify({ ...cover, texts: { label: '<b>' } }) },
  ]);
  const told = page.getByRole('region', { name: 'Done' });
  await told.waitFor();
  expect(await foreign(page)).toEqual([]);
  expect(await page.locator('b b').count()).toBe(0);
});

const noFiles: readonly (readonly [string, string, string | Uint8Array])[] = [
  ['no JSON', 'no.job.json', '{"fettle": 1, <b>'],
  ['a key of markup', 'key.job.json', JSON.stringify({ ...demo, [markup]: 1 })],
  ['a prototype', 'proto.job.json', '{"fettle":1,"family":"stabiliser-clip","__proto__":{"title":"x"}}'],
  ['a family of markup', 'family.job.json', JSON.stringify({ ...demo, family: markup })],
  ['nothing', 'nothing.job.json', ''],
  ['a printer that is none', 'x.printer.json', '{"fettlePrinter":2,"name":"<i>"}'],
  ['a model that is none', 'x.stl', 'solid <b>\nendsolid'],
  [
    'a bundle with a way out of its folder',
    'x.fettle.zip',
    hostileBundle({ besides: [{ name: '../../x.job.json', data: '{}' }] }),
  ],
];

test('files that are none are refused in words, and the job on the bench stays', async () => {
  const page = await open();
  const before = await settled(page);
  const told = page.getByRole('region', { name: 'Done' });
  for (const [what, name, bytes] of noFiles) {
    await openFiles(page, [{ name, bytes }]);
    const said = told.getByRole('alert');
    await said.waitFor();
    const words = (await said.textContent()) ?? '';
    expect(words, what).toContain(name);
    expect(words.length, what).toBeGreaterThan(30);
    expect(await foreign(page), what).toEqual([]);
    await told.getByRole('button', { name: 'noted' }).click();
    await told.waitFor({ state: 'detached' });
    expect(await settled(page), what).toBe(before);
  }
});

test('the built page has nothing inline, no eval, and says so in its headers', async () => {
  const home = inject('page');
  const answer = await fetch(home);
  const html = await answer.text();
  const policy = answer.headers.get('content-security-policy');
  expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval'");
  expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'/);
  expect(html).not.toMatch(/<style|style=|<script(?![^>]*\bsrc=)| on[a-z]+=/i);
  // Every address in it is its own.
  for (const [, address] of html.matchAll(/\b(?:src|href)="([^"]*)"/g)) expect(address).toMatch(/^\.\//);
  const scripts = [...html.matchAll(/src="\.\/([^"]*\.js)"/g)].map(([, path]) => path!);
  expect(scripts.length).toBeGreaterThan(0);
  const seen = new Set<string>();
  for (const path of scripts) {
    if (seen.has(path)) continue;
    seen.add(path);
    const code = await (await fetch(new URL(path, home))).text();
    expect(code, path).not.toMatch(/\beval\(|new Function\(/);
    for (const [, name] of code.matchAll(/["'`](?:\.\/|assets\/)?([\w.-]+\.js)["'`]/g))
      scripts.push(`assets/${name}`);
  }
  expect(seen.size).toBeGreaterThan(8);
  nothingWrong();
});
