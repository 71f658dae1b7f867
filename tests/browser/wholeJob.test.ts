import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { demoJob } from '../cli/fettle.ts';
import { drawerOut, openFiles, readingAtHand, settled, tabTo, taken, typeNumber } from './hands.ts';
import { visits } from './visits.ts';

const { open } = visits({ webgl: true });
const demo = JSON.parse(readFileSync(demoJob, 'utf8')) as {
  readonly readings: Readonly<Record<string, readonly string[]>>;
};

test('from an empty page to the part by keys alone, as callipers with a cable type', async () => {
  const page = await open();
  await tabTo(page, page.locator('#drawer-handle'));
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('button', { name: 'Stabiliser clip', exact: true }));
  await page.keyboard.press('Enter');
  await page.locator('#reading-barDiameter').waitFor();
  await tabTo(page, page.locator('#reading-barDiameter'));

  for (const [id, texts] of Object.entries(demo.readings))
    for (const text of texts) {
      expect(await readingAtHand(page)).toBe(id);
      await typeNumber(page, text);
    }
  console.log(await settled(page));
  await drawerOut(page);
  const file = await taken(page, () =>
    page
      .locator('.drawer li.on-bench')
      .getByRole('button', { name: /^Take .* away/ })
      .click(),
  );
  console.log(file.name, file.text);
  expect(JSON.parse(file.text).readings).toEqual(demo.readings);
});
