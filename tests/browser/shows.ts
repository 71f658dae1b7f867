import { mkdirSync } from 'node:fs';
import type { Page } from 'playwright-core';

const folder = 'out/page';

/** Takes a picture of what the page shows into out/page, for whoever wants to see what the tests saw. */
export async function shows(page: Page, name: string): Promise<void> {
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: `${folder}/${name}.png`, animations: 'disabled' });
}
