import { decode } from 'fast-png';
import type { Locator, Page } from 'playwright-core';
import { beforeAll, beforeEach, expect, test } from 'vitest';
import { bracket, stlOf } from '../cli/donorModel.ts';
import { barriers } from './barriers.ts';
import { commandBeside } from './commandBeside.ts';
import { drop } from './dropFile.ts';
import { nextPicture, settled, tabTo, take, toSheet } from './hands.ts';
import { sameBytes } from './sameBytes.ts';
import { shows } from './shows.ts';
import { visits } from './visits.ts';

const { open } = visits({ webgl: true });

const { put, bytesOf, run } = commandBeside();

let model: Uint8Array;
beforeAll(async () => {
  model = await stlOf(bracket);
});
beforeEach(() => put({ name: 'bracket.stl', bytes: model }));

/** Waits until what was pulled is worked out. */
const workedOut = async (page: Page) => {
  await nextPicture(page);
  await page.locator('.model-sheet:not(.busy)').waitFor();
};

const middleOf = async (one: Locator) => {
  const { x, y, width, height } = (await one.boundingBox())!;
  return { x: x + width / 2, y: y + height / 2, width, height };
};

/** Rows of the picture that have the second tint, from the front those of neck and post: the first one, and how many of the neck
 *  there are, which is the longest of them without a break. */
async function tintedRows(page: Page): Promise<{ readonly top: number; readonly longest: number }> {
  await nextPicture(page);
  const { data, channels, width, height } = decode(await page.locator('.in-the-round .picture').screenshot());
  let [top, longest, run] = [-1, 0, 0];
  for (let y = 0; y < height; y++) {
    let tinted = 0;
    for (let i = channels * width * y; i < channels * width * (y + 1); i += channels)
      if (data[i]! > data[i + 2]! + 60 && data[i]! > 120) tinted++;
    run = tinted > 8 ? run + 1 : 0;
    longest = Math.max(longest, run);
    if (run > 0 && top < 0) top = y;
  }
  return { top, longest };
}

test('a stretch pulled on the part itself is as long as the hand makes it, and goes back in one step', async () => {
  const page = await open({ reducedMotion: 'reduce' });
  await page.locator('.verdict-line .figure').waitFor();
  await drop(page, 'bracket.stl', model);
  await page.locator('.model-sheet .stretches').waitFor();
  const neck = page.getByRole('slider', { name: 'Stretch B along z, on the part' });
  await neck.waitFor();
  const field = page.getByRole('textbox', { name: /^Length of stretch B along z/ });
  expect(await neck.getAttribute('aria-valuetext')).toBe('12.00 mm, as in the model');
  // From the front nothing hides the neck.
  await page.getByRole('button', { name: 'front' }).click();
  const hand = await middleOf(neck);
  expect(Math.min(hand.width, hand.height)).toBeGreaterThanOrEqual(44);
  const tip = await middleOf(page.getByRole('slider', { name: 'Stretch D along z, on the part' }));
  // Ends of neck and post, 18 and 30 mm up, tell how many pixels a mm is.
  const perMm = (hand.y - tip.y) / 12;
  const still = await tintedRows(page);
  const isSeen = async (mm: number) => {
    const { top, longest } = await tintedRows(page);
    // Less the lines that mark its two ends.
    expect(longest).toBeLessThan(mm * perMm + 1.5);
    expect(longest).toBeGreaterThan(mm * perMm - 10);
    // All above the neck moves as one, the post too.
    expect(Math.abs(top - still.top - (12 - mm) * perMm)).toBeLessThan(2.5);
  };
  await isSeen(12);

  await page.mouse.move(hand.x, hand.y);
  await page.mouse.down();
  await page.mouse.move(hand.x + 3, hand.y + 2 * perMm, { steps: 4 });
  await page.mouse.move(hand.x + 3, hand.y + 3.4 * perMm, { steps: 4 });
  // Under the hand, before it lets go: figures, the handle itself, and the plastic between.
  expect(await neck.getAttribute('aria-valuetext')).toBe('8.60 mm, 3.40 shorter than in the model');
  expect(await field.inputValue()).toBe('8.60');
  expect(await page.getByText('sections differ by 0.00 % of 48.00 mm²').isVisible()).toBe(true);
  expect((await middleOf(neck)).y - hand.y).toBeCloseTo(3.4 * perMm, 0);
  await isSeen(8.6);
  await shows(page, 'bands-held');
  await page.mouse.up();
  await workedOut(page);
  // What is worked out is what was shown.
  await isSeen(8.6);
  expect(await field.inputValue()).toBe('8.60');
  await settled(page);
  expect(await barriers(page)).toEqual([]);
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await barriers(page, true)).toEqual([]);
  await shows(page, 'bands-night');
  await page.emulateMedia({ colorScheme: 'light' });
  // A phone is as wide as all there is of it.
  await page.setViewportSize({ width: 360, height: 780 });
  await nextPicture(page);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(360);
  expect(await barriers(page)).toEqual([]);
  await page.setViewportSize({ width: 1280, height: 900 });

  // Beside the handle the same press turns the part.
  const surface = page.locator('.in-the-round .surface');
  const { x, y } = (await surface.boundingBox())!;
  await page.mouse.move(x + 30, y + 30);
  await page.mouse.down();
  await page.mouse.move(x + 120, y + 60, { steps: 4 });
  await page.mouse.up();
  expect((await middleOf(neck)).x).not.toBeCloseTo(hand.x, 0);
  expect(await field.inputValue()).toBe('8.60');

  const undo = page.getByRole('button', { name: /^Take back: / });
  expect(await undo.getAttribute('aria-label')).toBe('Take back: length along z');
  await undo.click();
  await workedOut(page);
  await expect.poll(() => field.inputValue()).toBe('12.00');
  expect(await undo.getAttribute('aria-label')).toBe('Take back: nothing');

  // The same by keys alone: three whole millimetres, four tenths.
  await tabTo(page, neck);
  for (const key of [
    'Shift+ArrowLeft',
    'Shift+ArrowDown',
    'Shift+ArrowLeft',
    ...Array<string>(4).fill('ArrowDown'),
  ])
    await page.keyboard.press(key);
  expect(await neck.getAttribute('aria-valuetext')).toBe('8.60 mm, 3.40 shorter than in the model');
  await page.keyboard.press('Enter');
  await workedOut(page);
  await expect.poll(() => field.inputValue()).toBe('8.60');
  await settled(page);
  await toSheet(page, 'Print');
  const [job, part] = [await take(page, 'job'), await take(page, 'STL')];
  expect(JSON.parse(job.text)).toMatchObject({ donor: { changes: [{ axis: 'z', by: -3.4 }] } });
  put(job);
  await run('refit', 'bracket.stl', '--job', job.name, '--yes', '--out', 'out');
  sameBytes(part.bytes, bytesOf(`out/${part.name}`), 'refit');
});
