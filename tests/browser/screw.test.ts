import { expect, test } from 'vitest';
import { fettle } from '../cli/fettle.ts';
import { barriers } from './barriers.ts';
import { settled, tabTo, typeNumber } from './hands.ts';
import { shows } from './shows.ts';
import { visits } from './visits.ts';

const { open } = visits();

test('an odd screw is named by callipers and keys alone, as the command names it', async () => {
  const asked: string[] = [];
  const page = await open({ reducedMotion: 'reduce' });
  await settled(page);
  page.on('request', (request) => asked.push(request.url()));
  const strip = page.locator('details.screw > summary');
  await tabTo(page, strip);
  await page.keyboard.press('Enter');
  const diameter = page.getByRole('textbox', { name: 'Outside diameter' });
  await diameter.waitFor();
  // Tables and form come when they are asked for.
  expect(asked.some((url) => /ScrewForm/.test(url))).toBe(true);
  await tabTo(page, diameter);
  for (const text of ['4,79', '10', '7.95']) await typeNumber(page, text);
  const told = page.locator('.screw-told');
  const { stdout } = await fettle(['screw', '--diameter', '4,79', '--threads', '10', '--over', '7.95']);
  const likeliest = /most likely {2}(\S+ \S+) {2}(.+)/.exec(stdout)!;
  await told.getByText(`most likely ${likeliest[1]} ${likeliest[2]}`).waitFor();
  const words = (await told.locator('p').allTextContents()).join(' ').toLowerCase();
  const said = stdout.replace(/\s+/g, ' ').toLowerCase();
  for (const [, part] of said.matchAll(/(hole that [^)]+\)|if [^;]+;)/g)) expect(words).toContain(part);
  expect(words).toContain(/screw - (.+ over 10 threads)/.exec(said)![1]);
  await page
    .getByRole('status')
    .filter({ hasText: `Most likely ${likeliest[1]}` })
    .waitFor({ state: 'attached' });
  expect(await barriers(page)).toEqual([]);
  await shows(page, 'screw');

  await diameter.fill('30');
  await page.getByText('30 is out of range; allowed: 1 to 12 mm, such as 2.84 or 0.112in').waitFor();
  expect(await told.count()).toBe(0);
});
