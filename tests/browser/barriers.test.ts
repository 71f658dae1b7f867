import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { barriers } from './barriers.ts';
import { drawerOut, settled, toSheet } from './hands.ts';
import { visits } from './visits.ts';

const { open } = visits();

/** Every screen there is, in the order a person meets them. */
const screens: readonly (readonly [string, (page: Page) => Promise<unknown>])[] = [
  ['the example on sheet 1', (page) => page.locator('.form-sheet.drawn').waitFor()],
  [
    'a number being typed that cannot be',
    async (page) => {
      await page.locator('#reading-socketWidth').focus();
      await page.keyboard.type('4x');
      await page.locator('.refused').first().waitFor();
    },
  ],
  ['the readings as a table', (page) => page.keyboard.press('F2')],
  [
    'how it is built, and the callipers',
    async (page) => {
      await page.keyboard.press('Escape');
      for (const strip of await page.locator('.measure .strip summary').all()) await strip.click();
    },
  ],
  ['sheet 2', (page) => toSheet(page, 'Fit')],
  ['sheet 3', (page) => toSheet(page, 'Print')],
  ['sheet 4', (page) => toSheet(page, 'Try')],
  ['the drawer', drawerOut],
  [
    'a job with nothing read',
    async (page) => {
      await page.getByRole('button', { name: 'Case foot', exact: true }).click();
      await page.locator('.problems').waitFor();
    },
  ],
];

/** What bars the way on which screen. */
async function look(page: Page, withNight: boolean): Promise<Readonly<Record<string, readonly string[]>>> {
  await settled(page);
  const found: Record<string, readonly string[]> = {};
  for (const [name, show] of screens) {
    await show(page);
    const there = [...(await barriers(page))];
    if (withNight) {
      await page.emulateMedia({ colorScheme: 'dark' });
      there.push(...(await barriers(page, true)).map((line) => `by night: ${line}`));
      await page.emulateMedia({ colorScheme: 'light' });
    }
    if (there.length > 0) found[name] = there;
  }
  return found;
}

test('nothing bars the way on any screen, by day and by night', async () => {
  const page = await open({ reducedMotion: 'reduce' });
  expect(await look(page, true)).toEqual({});
});

test('nor on a phone', async () => {
  const page = await open({ viewport: { width: 360, height: 740 }, hasTouch: true, reducedMotion: 'reduce' });
  expect(await look(page, false)).toEqual({});
});
