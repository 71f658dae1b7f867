import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { drawerOut, openFiles, settled, taken, toSheet, typeNumber } from './hands.ts';
import { visits } from './visits.ts';

const { open, tab } = visits();

/** The job on the bench, as its file. */
async function jobNow(page: Page): Promise<{ readings: Record<string, readonly string[]>; title: string }> {
  await drawerOut(page);
  const onBench = page.locator('.drawer li.on-bench');
  const { text } = await taken(page, () =>
    onBench.getByRole('button', { name: /^Take .* away as a file$/ }).click(),
  );
  return JSON.parse(text);
}

const strip = (page: Page, name: string) => page.getByRole('region', { name, exact: true });

test('a reload in the middle of typing loses no number, no sheet and no way back', async () => {
  const page = await open();
  await settled(page);
  await page.locator('#reading-socketWidth').focus();
  await typeNumber(page, '4.05');
  // No Enter: the last number is still being typed when the page goes.
  await page.keyboard.type('4.06');
  await page.reload();
  await settled(page);
  const expected = ['4.03', '4.01', '4.04', '4.02', '4.03', '4.05', '4.06'];
  expect((await jobNow(page)).readings.socketWidth).toEqual(expected);

  await toSheet(page, 'Print');
  await page.reload();
  await page.getByRole('region', { name: 'Print', exact: true }).waitFor();
  await page.getByRole('button', { name: /^Take back: / }).click();
  await settled(page);
  expect((await jobNow(page)).readings.socketWidth).toEqual(expected.slice(0, -1));
});

test('two tabs on one job: both are told who writes, and what both have typed is there', async () => {
  const one = await open();
  await settled(one);
  await one.locator('#reading-socketWidth').focus();
  await typeNumber(one, '4.05');
  await expect.poll(() => stored(one)).toBe(1);

  const two = await tab(one);
  await settled(two);
  await strip(two, 'Two tabs').waitFor();
  expect(await strip(one, 'Two tabs').count()).toBe(0);

  // What the one types shows in the other.
  await one.bringToFront();
  await one.locator('#reading-barDiameter').focus();
  await typeNumber(one, '1.62');
  await expect.poll(async () => (await jobNow(two)).readings.barDiameter?.at(-1)).toBe('1.62');

  // Whoever types has the pen.
  await two.bringToFront();
  await two.locator('#reading-reach').focus();
  await typeNumber(two, '14.29');
  await strip(one, 'Two tabs').waitFor();
  await strip(two, 'Two tabs').waitFor({ state: 'detached' });
  for (const page of [one, two])
    await expect
      .poll(async () => {
        const { barDiameter, reach, socketWidth } = (await jobNow(page)).readings;
        return [socketWidth?.at(-1), barDiameter?.at(-1), reach?.at(-1)];
      })
      .toEqual(['4.05', '1.62', '14.29']);
});

/** Jobs that lie in the drawer. */
const stored = (page: Page): Promise<number> =>
  page.evaluate(async () => {
    const drawer = await new Promise<IDBDatabase>((resolve, reject) => {
      const asked = indexedDB.open('fettle');
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => reject(asked.error);
    });
    const count = await new Promise<number>((resolve, reject) => {
      const asked = drawer.transaction('jobs').objectStore('jobs').count();
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => reject(asked.error);
    });
    drawer.close();
    return count;
  });

test('without a network the page comes again from what it kept, worker and all', async () => {
  const page = await open();
  await settled(page);
  await page.locator('#reading-socketWidth').focus();
  await typeNumber(page, '4.05');
  const before = await settled(page);
  // Ready once everything that is to be kept is kept: that is when a service worker goes active.
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await page.context().setOffline(true);
  await page.reload();
  expect(await settled(page)).toBe(before);
  expect((await jobNow(page)).readings.socketWidth?.at(-1)).toBe('4.05');
  for (const name of ['Fit', 'Print', 'Try'] as const) {
    await toSheet(page, name);
    expect(await page.locator('.torn').count()).toBe(0);
  }
});

test('where the storage is full the page says so, and hands the job out', async () => {
  const page = await open();
  await settled(page);
  const session = await page.context().newCDPSession(page);
  await session.send('Storage.overrideQuotaForOrigin', { origin: new URL(page.url()).origin, quotaSize: 1 });
  await page.locator('#reading-socketWidth').focus();
  await typeNumber(page, '4.05');
  const says = strip(page, 'Keeping');
  await says.waitFor();
  expect(await says.textContent()).toMatch(/Nothing is kept\. The storage of this browser is full/);
  const { text } = await taken(page, () => says.getByRole('button', { name: /take the job away/ }).click());
  expect(JSON.parse(text).readings.socketWidth.at(-1)).toBe('4.05');

  await session.send('Storage.overrideQuotaForOrigin', { origin: new URL(page.url()).origin });
  await says.getByRole('button', { name: 'try again' }).click();
  await says.waitFor({ state: 'detached' });
  await page.reload();
  await settled(page);
  expect((await jobNow(page)).readings.socketWidth?.at(-1)).toBe('4.05');
});

test('a job goes out as a file and comes in again, to the byte', async () => {
  const page = await open();
  await settled(page);
  await drawerOut(page);
  const away = () => page.locator('.drawer li.on-bench').getByRole('button', { name: /away as a file$/ });
  await page.locator('#reading-socketWidth').focus();
  await typeNumber(page, '.159 in');
  const out = await taken(page, () => away().click());
  await openFiles(page, [{ name: 'theirs.job.json', bytes: out.bytes }]);
  await strip(page, 'Done')
    .getByText(/is on the bench/)
    .waitFor();
  await drawerOut(page);
  await expect.poll(() => page.locator('.drawer .jobs li').count()).toBe(2);
  const again = await taken(page, () => away().click());
  expect(again.text).toBe(out.text);
  expect(again.name).toBe(out.name);
});
