import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Download } from 'playwright-core';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { coupon } from '../../src/printer/coupon/coupon.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { profileText } from '../../src/printer/profileText.ts';
import { fettle, workshop } from '../cli/fettle.ts';
import { randomness } from '../simulation/randomness.ts';
import { drawPrinter, print } from '../simulation/truePrinter.ts';
import { barriers } from './barriers.ts';
import { drawerOut, fileOf, openFiles, settled, taken, toSheet, typeNumber } from './hands.ts';
import { sameBytes } from './sameBytes.ts';
import { shows } from './shows.ts';
import { visits } from './visits.ts';

const { open } = visits();

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());
const at = (name: string) => join(bench.folder, name);
const bytesOf = (name: string) => new Uint8Array(readFileSync(at(name)));
const run = async (...args: readonly string[]) => {
  const { code, stderr } = await fettle(args, { cwd: bench.folder });
  expect(code, stderr).toBe(0);
};

const own = { ...defaultPrinter, name: 'Bench Ox', material: 'PETG' };
/** What callipers read of a coupon that an invented printer made, twice each; by a simulation that knows the printer. */
function couponRead(seed: number): ReadonlyMap<string, readonly string[]> {
  const random = randomness(seed);
  const printer = drawPrinter(random);
  return new Map(
    coupon(own).features.map(({ id, nominal, measurand, times }) => [
      id,
      Array.from({ length: times }, () => print(printer, nominal, measurand, random).toFixed(2)),
    ]),
  );
}

test('a coupon typed as callipers type it calibrates the printer to the byte as the command does', async () => {
  const page = await open({ reducedMotion: 'reduce' });
  await page.clock.setFixedTime('2026-11-21T12:00:00');
  await openFiles(page, [{ name: 'ox.printer.json', bytes: profileText(own) }]);
  await page.getByRole('region', { name: 'Done' }).getByText('lies in the drawer').waitFor();
  await toSheet(page, 'Print');
  await page.locator('[data-field=printer]').selectOption({ label: 'Bench Ox, PETG, not calibrated' });
  const before = await settled(page);
  await page.locator('summary[data-field=coupon]').click();
  const read = couponRead(7);
  const first = [...read.keys()][0]!;
  await page.locator(`[id="coupon-${first}"]`).focus();
  for (const [id, texts] of read)
    for (const text of texts) {
      const where = await page.evaluate(() => document.activeElement?.id);
      expect(where).toBe(`coupon-${id}`);
      await typeNumber(page, text);
    }
  const putIn = page.getByRole('button', { name: 'draw the job for this printer' });
  await page.locator('.come-to:not(.stale)').waitFor();
  await expect.poll(() => putIn.getAttribute('aria-disabled')).not.toBe('true');
  expect(await barriers(page)).toEqual([]);
  await shows(page, 'coupon');
  await putIn.click();
  expect(Number.parseFloat(await settled(page))).toBeGreaterThan(Number.parseFloat(before));
  await drawerOut(page);
  const profile = await taken(page, () =>
    page.getByRole('button', { name: 'Take printer Bench Ox away as a file' }).click(),
  );

  writeFileSync(at('ox.printer.json'), profileText(own));
  writeFileSync(at('read.csv'), [...read].map(([id, texts]) => [id, ...texts].join(',')).join('\n'));
  // The callipers of the example show 0.01 when closed.
  const callipers = ['--zero', '0.01', '--resolution', '0.01'];
  await run('calibrate', 'ox.printer.json', 'read.csv', ...callipers, '--date', '2026-11-21');
  sameBytes(profile.bytes, bytesOf('ox.printer.json'), 'profile');
});

test('a ladder and how it felt teach job and printer to the byte as the command does', async () => {
  const page = await open({ reducedMotion: 'reduce' });
  await settled(page);
  await toSheet(page, 'Print');
  const take = (what: string) =>
    taken(page, () => page.getByRole('button', { name: new RegExp(`^Take the ${what}, `) }).click());
  const job = await take('job');
  writeFileSync(at(job.name), job.bytes);
  await run('ladder', job.name, 'socket', '--out', 'out');

  await page.locator('summary[data-field=ladders]').click();
  await page.locator('details.ladder .choose select').first().selectOption('socket');
  await page.getByRole('button', { name: 'draw the ladder' }).click();
  const leaving = page.getByRole('button', { name: /^Take the ladder, / });
  await leaving.waitFor();
  const downloads: Download[] = [];
  page.on('download', (download) => downloads.push(download));
  await leaving.click();
  await expect.poll(() => downloads.length).toBe(2);
  for (const download of downloads) {
    const { name, bytes } = await fileOf(download);
    sameBytes(bytes, bytesOf(`out/${name}`), name);
  }

  const felt = ['tight', 'tight', 'right', 'right', 'loose', 'loose', 'loose'];
  for (const [k, word] of felt.entries())
    await page
      .getByRole('group', { name: `Number ${k + 1}`, exact: true })
      .getByLabel(word, { exact: true })
      .check();
  expect(await barriers(page)).toEqual([]);
  await shows(page, 'ladder');
  await page.getByRole('button', { name: 'draw the job by it' }).click();
  await page.locator('.judged').getByText('in the job').waitFor();
  await settled(page);
  await run('ladder', job.name, 'socket', '--tight', '1,2', '--right', '3,4', '--loose', '5-7');
  const told = await take('job');
  expect(JSON.parse(told.text)).toEqual(JSON.parse(readFileSync(at(job.name), 'utf8')));
});
