import type { CDPSession, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { nextPicture, settled } from './hands.ts';
import { visits } from './visits.ts';

const { open } = visits({ webgl: true });

type Point = readonly [number, number];

/** Moves fingers from where they come down to where they are lifted, in ten steps. */
async function fingers(hand: CDPSession, paths: readonly (readonly [Point, Point])[]): Promise<void> {
  const at = (share: number) =>
    paths.map(([from, to], id) => ({
      ...{ id, x: from[0] + share * (to[0] - from[0]), y: from[1] + share * (to[1] - from[1]) },
    }));
  await hand.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: at(0) });
  for (let step = 1; step <= 10; step++)
    await hand.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: at(step / 10) });
  await hand.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
}

/** Where the findings are on the picture, pixels. */
const spots = (page: Page): Promise<Point[]> =>
  page
    .locator('.solid .balloons circle')
    .evaluateAll((all) => all.map((one) => [Number(one.getAttribute('cx')), Number(one.getAttribute('cy'))]));

const apart = (points: readonly Point[]): number => {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return Math.hypot(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
};

test('one finger turns the part, two bring it nearer, and the page stays where it is', async () => {
  const page = await open({
    ...{ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, reducedMotion: 'reduce' },
  });
  await settled(page);
  const canvas = page.locator('.solid canvas');
  await canvas.waitFor();
  await canvas.scrollIntoViewIfNeeded();
  await page.locator('.solid .balloons circle').first().waitFor();
  const { x, y, width, height } = (await canvas.boundingBox())!;
  const [left, top] = [x + width / 2, y + height / 2];
  const hand = await page.context().newCDPSession(page);
  const scrolled = await page.evaluate(() => scrollY);

  const first = await spots(page);
  expect(first.length).toBeGreaterThan(3);
  await fingers(hand, [
    [
      [left, top],
      [left + 90, top + 20],
    ],
  ]);
  await nextPicture(page);
  const turned = await spots(page);
  expect(turned).not.toEqual(first);
  // Seen from elsewhere, not moved as a whole.
  const shifts = turned.map(([a, b], k) => [a - first[k]![0], b - first[k]![1]] as const);
  expect(apart(shifts)).toBeGreaterThan(5);

  await fingers(hand, [
    [
      [left - 30, top],
      [left - 60, top],
    ],
    [
      [left + 30, top],
      [left + 60, top],
    ],
  ]);
  await nextPicture(page);
  const near = await spots(page);
  // Twice as far apart, so twice as near.
  expect(apart(near) / apart(turned)).toBeCloseTo(2, 1);
  expect(await page.evaluate(() => [scrollY, visualViewport!.scale])).toEqual([scrolled, 1]);
});
