// Photographs the built page for the README: `npm run build`, then `npx tsx tests/tools/pagePictures.ts`.
import { mkdirSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { chromium } from 'playwright-core';
import { pageServer } from '../../viewer/serve/pageServer.ts';
import { findBrowser } from '../browser/findBrowser.ts';

const shots = [
  { name: 'measure', sheet: 'Measure', width: 1280, height: 960, colorScheme: 'light' },
  { name: 'fit', sheet: 'Fit', width: 1280, height: 960, colorScheme: 'light' },
  { name: 'print', sheet: 'Print', width: 1280, height: 960, colorScheme: 'light' },
  { name: 'phone', sheet: 'Measure', width: 390, height: 844, colorScheme: 'dark' },
] as const;

async function photograph(): Promise<void> {
  mkdirSync('viewer/pictures', { recursive: true });
  const server = pageServer('dist/page');
  await new Promise<void>((up) => server.listen(0, '127.0.0.1', up));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  const args = ['--no-sandbox', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'];
  const browser = await chromium.launch({ executablePath: findBrowser(), args });
  for (const { name, sheet, width, height, colorScheme } of shots) {
    const page = await browser.newPage({ viewport: { width, height }, colorScheme });
    await page.goto(address);
    await page
      .getByRole('navigation')
      .getByRole('button', { name: new RegExp(sheet) })
      .click();
    // The verdict is there, nothing is worked on any more, and the picture in the round has come.
    await page.getByText('likely to fit').first().waitFor({ timeout: 60_000 });
    await page.locator('.solid canvas').waitFor({ timeout: 60_000 });
    await page.waitForTimeout(8_000);
    await page.screenshot({ path: `viewer/pictures/${name}.png` });
    await page.close();
    console.log(`wrote viewer/pictures/${name}.png`);
  }
  await browser.close();
  server.close();
}

await photograph();
