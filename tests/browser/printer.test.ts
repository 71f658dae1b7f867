import { readFileSync } from 'node:fs';
import type { Download } from 'playwright-core';
import { expect, test } from 'vitest';
import { coupon } from '../../src/printer/coupon/coupon.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { profileText } from '../../src/printer/profileText.ts';
import { demoJob } from '../cli/fettle.ts';
import { randomness } from '../simulation/randomness.ts';
import { drawPrinter, print } from '../simulation/truePrinter.ts';
import { barriers } from './barriers.ts';
import { commandBeside } from './commandBeside.ts';
import { drawerOut, fileOf, openFiles, settled, take, taken, toSheet, typeNumber } from './hands.ts';
import { sameBytes } from './sameBytes.ts';
import { shows } from './shows.ts';
import { visits } from './visits.ts';

const { open } = visits();

const { put, bytesOf, jsonOf, run } = commandBeside([0]);

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
  // One reading taken back by key, one by its button; the job's own steps stay where they are.
  const undoes = page.getByRole('button', { name: /^Take back: / });
  const jobStep = await undoes.getAttribute('aria-label');
  const [number] = read.get(first)!;
  await typeNumber(page, number!);
  await page.keyboard.press('Control+z');
  await page.getByText(`Taken back: 1: ${number}.`).waitFor();
  await typeNumber(page, number!);
  await page.getByRole('button', { name: `take back 1: ${number}`, exact: true }).click();
  await page.locator('.coupon-field.missing').first().waitFor();
  expect(await page.locator('.coupon-field.missing').count()).toBe(read.size);
  expect(await undoes.getAttribute('aria-label')).toBe(jobStep);
  await page.getByLabel('printed on').fill('2026-11-19');
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

  put({ name: 'ox.printer.json', bytes: profileText(own) });
  put({ name: 'read.csv', bytes: [...read].map(([id, texts]) => [id, ...texts].join(',')).join('\n') });
  // The callipers of the example show 0.01 when closed.
  const callipers = ['--zero', '0.01', '--resolution', '0.01'];
  await run('calibrate', 'ox.printer.json', 'read.csv', ...callipers, '--date', '2026-11-19');
  sameBytes(profile.bytes, bytesOf('ox.printer.json'), 'profile');
});

test('a ladder and how it felt teach job and printer to the byte as the command does', async () => {
  const page = await open({ reducedMotion: 'reduce' });
  await settled(page);
  await toSheet(page, 'Print');
  const job = await take(page, 'job');
  put(job);
  await run('ladder', job.name, 'socket', '--rungs', '6', '--step', '0,04', '--out', 'out');

  await page.locator('summary[data-field=ladders]').click();
  await page.locator('details.ladder .choose select').first().selectOption('socket');
  await page.getByRole('combobox', { name: 'numbers' }).selectOption('6');
  const step = page.getByRole('textbox', { name: 'step, mm' });
  await step.fill('2');
  await page.getByRole('button', { name: 'draw the ladder' }).click();
  await page.getByText('step: 2 will not do; wanted: 0.01 to 1 mm').waitFor();
  await step.fill('0,04');
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

  const felt = ['tight', 'tight', 'right', 'right', 'loose', 'loose'];
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
  await run('ladder', job.name, 'socket', '--tight', '1,2', '--right', '3,4', '--loose', '5-6');
  const told = await take(page, 'job');
  expect(JSON.parse(told.text)).toEqual(jsonOf(job.name));
});

test('jobs of the drawer are laid on one bed to the byte as the command lays their files, and stay as they are', async () => {
  const page = await open({ reducedMotion: 'reduce' });
  const demo = (part: string) => JSON.parse(readFileSync(demoJob.replace('stabiliser-clip', part), 'utf8'));
  const [clip, cover, foot] = [demo('stabiliser-clip'), demo('socket-cover'), demo('case-foot')];
  const jobs = [
    foot,
    { ...cover, title: 'Cover, elsewhere', printer: { ...cover.printer, name: 'Bench Ox' } },
    { ...clip, title: 'Clips not read', readings: {} },
    { ...clip, title: 'Clips of the spare', quantity: 8 },
    cover,
    { ...clip, title: 'Clips of the bench' },
  ];
  await openFiles(
    page,
    jobs.map((job, k) => ({ name: `${k}.job.json`, bytes: JSON.stringify(job) })),
  );
  await page.getByText('Clips of the bench is on the bench').waitFor();
  await settled(page);
  await drawerOut(page);
  const along = [cover.title, 'Clips of the spare'];
  const fileIn = (title: string) =>
    taken(page, () => page.getByRole('button', { name: `Take ${title} away as a file` }).click());
  const files = [];
  for (const title of ['Clips of the bench', ...along]) files.push(await fileIn(title));

  await toSheet(page, 'Print');
  await page.locator('summary[data-field=plate]').click();
  const cannot = page.getByRole('list', { name: 'Jobs that cannot' });
  await cannot.getByText('another filament: TPU; wanted: PETG, as in this job').waitFor();
  await cannot.getByText('another printer: Bench Ox; wanted: printer 1, as in this job').waitFor();
  await cannot.getByText('not ready: 14 readings to go').waitFor();
  expect(
    await cannot.getByRole('checkbox').evaluateAll((all) => all.map((one) => one.matches(':disabled'))),
  ).toEqual([true, true, true]);
  for (const title of along) await page.getByRole('checkbox', { name: title }).check();
  const bed = page.getByRole('img', {
    name: '11 parts on a bed of 220 by 220 mm, from above: 1, Clips of the bench',
  });
  await bed.waitFor();
  await page.locator('.lay-body:not(.stale)').waitFor();
  expect(await page.locator('.kinds li').allTextContents()).toEqual([
    expect.stringMatching(/^Clips of the bench, 2 off/),
    expect.stringMatching(/^Cover of the printer socket, Halden 80 terminal, 1 off/),
    expect.stringMatching(/^Clips of the spare, 8 off/),
  ]);
  expect(await barriers(page)).toEqual([]);
  await shows(page, 'plate');

  for (const file of files) put(file);
  const apart = page.getByRole('textbox', { name: 'Least distance between parts, mm' });
  await apart.fill('0,5');
  await page.getByText('"0,5" will not do; allowed: 1 to 50 mm').waitFor();
  await apart.fill('2,5');
  await page.getByText('at least 2.5 mm apart').waitFor();
  await run('plate', ...files.map(({ name }) => name), '--spacing', '2,5', '--out', 'out');
  for (const word of ['STL', '3MF', 'view']) {
    const { name, bytes } = await take(page, `bed ${word}`);
    sameBytes(bytes, bytesOf(`out/${name}`), name);
  }

  await apart.fill('50');
  await page
    .locator('.bed-refused')
    .getByText(/11 parts do not fit on 220 x 220 mm/)
    .waitFor();
  const last = page.getByRole('listitem').filter({ has: page.getByRole('checkbox', { name: along[1]! }) });
  await last.getByText(/^does not fit: /).waitFor();
  await last.getByRole('checkbox').uncheck();
  for (const [k, title] of ['Clips of the bench', ...along].entries())
    sameBytes((await fileIn(title)).bytes, files[k]!.bytes, title);
});
