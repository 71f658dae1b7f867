import { readFileSync } from 'node:fs';
import type { Download, Locator, Page } from 'playwright-core';
import { expect } from 'vitest';

/** Waits until the page has worked out what is on the bench and it can be made; the verdict's figure, as shown. */
export async function settled(page: Page): Promise<string> {
  // What was typed a moment ago shows with the next picture.
  await nextPicture(page);
  const figure = page.locator('.verdict-line:not(.stale) .figure');
  await figure.waitFor();
  return (await figure.textContent()) ?? '';
}

/** Waits until the page has been drawn again. */
export const nextPicture = (page: Page): Promise<void> =>
  page.evaluate(
    () => new Promise<void>((drawn) => requestAnimationFrame(() => requestAnimationFrame(() => drawn()))),
  );

/** Moves the focus on by Tab until it is on what is looked for, as who has no mouse would; fails where it never comes. */
export async function tabTo(page: Page, wanted: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
  await wanted.waitFor();
  const isThere = () => wanted.evaluate((element) => element === document.activeElement);
  for (let k = 0; k < 150 && !(await isThere()); k++) await page.keyboard.press(key);
  expect(await isThere(), `no way by ${key} to ${wanted}`).toBe(true);
}

/** Types as callipers with a cable do: digits and Enter, with no look at the screen. */
export async function typeNumber(page: Page, text: string): Promise<void> {
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

/** Id of the reading whose field has the cursor; null for none. */
export const readingAtHand = (page: Page): Promise<string | null> =>
  page.evaluate(() => /^reading-(.+)$/.exec(document.activeElement?.id ?? '')?.[1] ?? null);

/** A file that the page handed to the person. */
export interface HandedOver {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly text: string;
}

/** The file that a deed hands over. */
export async function taken(page: Page, deed: () => Promise<unknown>): Promise<HandedOver> {
  const [download] = await Promise.all([page.waitForEvent('download'), deed()]);
  return fileOf(download);
}

/** One of the files on the sheet Print, by the word on its button: `STL`, `job`. */
export const take = (page: Page, what: string): Promise<HandedOver> =>
  taken(page, () => page.getByRole('button', { name: new RegExp(`^Take the ${what}, `) }).click());

/** The file of a download. */
export async function fileOf(download: Download): Promise<HandedOver> {
  const bytes = new Uint8Array(readFileSync(await download.path()));
  return { name: download.suggestedFilename(), bytes, text: new TextDecoder().decode(bytes) };
}

/** Turns to a sheet, and waits until it is unrolled. */
export async function toSheet(page: Page, name: 'Measure' | 'Fit' | 'Print' | 'Try'): Promise<void> {
  const tabs = page.getByRole('navigation', { name: 'Sheets' });
  await tabs.getByRole('button', { name: new RegExp(name) }).click();
  await page.getByRole('region', { name, exact: true }).locator(':scope > :not(.waiting)').first().waitFor();
}

/** Pulls the drawer out, if it is in. */
export async function drawerOut(page: Page): Promise<void> {
  const handle = page.locator('#drawer-handle');
  if ((await handle.getAttribute('aria-expanded')) !== 'true') await handle.click();
  await page.locator('section.drawer').waitFor();
}

/** Gives files to the page by the button of the drawer. */
export async function openFiles(
  page: Page,
  files: readonly { readonly name: string; readonly bytes: Uint8Array | string }[],
): Promise<void> {
  await drawerOut(page);
  await page.locator('.drawer .jobs input[type=file]').setInputFiles(
    files.map(({ name, bytes }) => ({
      ...{ name, mimeType: 'application/octet-stream' },
      buffer: Buffer.from(bytes),
    })),
  );
}
