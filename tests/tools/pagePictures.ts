// Photographs the built page and the measuring sheet for the README: `npm run build`, then `npx tsx tests/tools/pagePictures.ts`.
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { pageServer } from '../../viewer/serve/pageServer.ts';
import { drop } from '../browser/dropFile.ts';
import { findBrowser } from '../browser/findBrowser.ts';
import { bracket, stlOf } from '../cli/donorModel.ts';

const shots = [
  { name: 'measure', sheet: 'Measure', width: 1280, height: 960, colorScheme: 'light' },
  { name: 'fit', sheet: 'Fit', width: 1280, height: 960, colorScheme: 'light' },
  { name: 'print', sheet: 'Print', width: 1280, height: 960, colorScheme: 'light' },
  { name: 'try', sheet: 'Try', width: 1280, height: 960, colorScheme: 'light', before: read },
  { name: 'phone', sheet: 'Measure', width: 390, height: 844, colorScheme: 'dark' },
] as const;

/** What callipers show of the print of the demo, three times over each place. */
async function read(page: Page): Promise<void> {
  const field = page.locator('section.sheet table.readings input, section.sheet .form-sheet input');
  await field.first().focus();
  for (const text of ['3.95', '3.94', '3.96', '4.22', '4.21', '4.22', '1.80', '1.81']) {
    await page.keyboard.type(text);
    await page.keyboard.press('Enter');
  }
}

/** A model that was dropped on the page, a stretch of it in the hand. */
async function photographModel(browser: Browser, address: string): Promise<void> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 820 }, reducedMotion: 'reduce' });
  await page.goto(address);
  await page.getByText('likely to fit').first().waitFor({ timeout: 60_000 });
  await drop(page, 'bracket.stl', await stlOf(bracket));
  const handle = page.getByRole('slider', { name: 'Stretch B along z, on the part' });
  await handle.waitFor({ timeout: 60_000 });
  // The picture, once it stands still.
  await page.waitForTimeout(4_000);
  const { x, y } = (await handle.boundingBox())!;
  await page.mouse.move(x + 22, y + 22);
  await page.mouse.down();
  await page.mouse.move(x + 22, y + 4, { steps: 4 });
  await page.waitForTimeout(1_000);
  await page.screenshot({ path: 'viewer/pictures/model.png' });
  await page.close();
  console.log('wrote viewer/pictures/model.png');
}

async function photographSheet(browser: Browser): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'fettle-sheet-'));
  const sheet = join(folder, 'sheet.html');
  execFileSync('node', ['dist/bin/fettle.js', 'sheet', 'stabiliser-clip', '--out', sheet]);
  const page = await browser.newPage({ viewport: { width: 860, height: 1130 } });
  await page.setContent(readFileSync(sheet, 'utf8'));
  await page.screenshot({ path: 'viewer/pictures/sheet.png' });
  rmSync(folder, { recursive: true });
  console.log('wrote viewer/pictures/sheet.png');
}

async function photograph(): Promise<void> {
  mkdirSync('viewer/pictures', { recursive: true });
  const server = pageServer('dist/page');
  await new Promise<void>((up) => server.listen(0, '127.0.0.1', up));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  const args = ['--no-sandbox', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'];
  const browser = await chromium.launch({ executablePath: findBrowser(), args });
  for (const { name, sheet, width, height, colorScheme, ...shot } of shots) {
    const page = await browser.newPage({ viewport: { width, height }, colorScheme });
    await page.goto(address);
    await page
      .getByRole('navigation')
      .getByRole('button', { name: new RegExp(sheet) })
      .click();
    // The verdict is there, nothing is worked on any more, and the picture in the round has come.
    await page.getByText('likely to fit').first().waitFor({ timeout: 60_000 });
    await page.locator('.solid canvas').waitFor({ timeout: 60_000 });
    if ('before' in shot) await shot.before(page);
    await page.waitForTimeout(8_000);
    await page.screenshot({ path: `viewer/pictures/${name}.png` });
    await page.close();
    console.log(`wrote viewer/pictures/${name}.png`);
  }
  await photographModel(browser, address);
  await photographSheet(browser);
  await browser.close();
  server.close();
}

await photograph();
