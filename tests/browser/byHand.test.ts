import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { drawerOut, nextPicture, readingAtHand, settled, toSheet } from './hands.ts';
import { shows } from './shows.ts';
import { visits } from './visits.ts';

const { open } = visits();

/** What can be come to by Tab, and whether one sees it: in the order of the page. */
interface Stop {
  readonly what: string;
  readonly isSeen: boolean;
  readonly isMarked: boolean;
}

/** Goes once round the page by Tab. */
async function round(page: Page): Promise<readonly Stop[]> {
  await page.evaluate(() => {
    (document.activeElement as HTMLElement | null)?.blur();
    document.body.tabIndex = -1;
    document.body.focus();
    document.body.removeAttribute('tabindex');
  });
  const stops: Stop[] = [];
  for (let k = 0; k < 200; k++) {
    await page.keyboard.press('Tab');
    const stop = await page.evaluate(() => {
      const element = document.activeElement;
      if (!element || element === document.body) return null;
      const first = element.getAttribute('data-test-round') === 'was here';
      if (first) return null;
      element.setAttribute('data-test-round', 'was here');
      const { left, top, right, bottom } = element.getBoundingClientRect();
      // A field may be out of sight while its label shows for it, and a mark on a group is one on each of it.
      const shown = [element, ...(element instanceof HTMLInputElement ? (element.labels ?? []) : [])];
      const marks = [
        ...shown,
        ...shown.flatMap((one) => [...one.querySelectorAll('*')]),
        element.parentElement,
      ];
      const isMarked = marks.some((one) => {
        if (!one) return false;
        const { outlineStyle, outlineWidth } = getComputedStyle(one);
        return outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2;
      });
      const isSeen = bottom > 0 && right > 0 && top < innerHeight && left < innerWidth;
      const name = element.getAttribute('aria-label') ?? element.textContent?.trim().slice(0, 40);
      return { what: `${element.tagName.toLowerCase()} ${element.id} ${name}`, isSeen, isMarked };
    });
    if (stop === null) break;
    stops.push(stop);
  }
  await page.evaluate(() => {
    for (const one of document.querySelectorAll('[data-test-round]')) one.removeAttribute('data-test-round');
  });
  return stops;
}

test('by Tab one comes to everything on each sheet, and sees where one is', async () => {
  const page = await open({ reducedMotion: 'reduce' });
  await settled(page);
  const lost: Record<string, readonly Stop[]> = {};
  for (const name of ['Measure', 'Fit', 'Print', 'Try'] as const) {
    await toSheet(page, name);
    await nextPicture(page);
    const stops = await round(page);
    expect(stops.length, name).toBeGreaterThan(12);
    const unseen = stops.filter(({ isSeen, isMarked }) => !isSeen || !isMarked);
    if (unseen.length > 0) lost[name] = unseen;
  }
  expect(lost).toEqual({});
});

test('the order of Tab is the order of measuring, on the drawing and in the table', async () => {
  const page = await open({ reducedMotion: 'reduce' });
  await settled(page);
  await page.locator('.form-sheet.drawn').waitFor();
  for (const shown of ['drawing', 'table']) {
    const order = await page
      .locator('table.readings input')
      .evaluateAll((inputs) => inputs.map(({ id }) => id.replace('reading-', '')));
    expect(order.length).toBe(14);
    // The number each one bears counts up in the same order.
    const numbers = await page.locator('table.readings th .ordinal').allTextContents();
    expect(numbers.map(Number)).toEqual(order.map((_, k) => k + 1));
    await page.locator(`#reading-${order[0]}`).focus();
    for (const id of order) {
      expect(await readingAtHand(page), shown).toBe(id);
      await page.keyboard.press('Tab');
    }
    await page.locator(`#reading-${order[0]}`).focus();
    await page.keyboard.press('F2');
    await nextPicture(page);
  }
});

test('on a phone nothing scrolls sideways, and the reading at hand stays in sight while one types', async () => {
  const phone = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true };
  const page = await open({ ...phone, reducedMotion: 'reduce' });
  await settled(page);
  const across = () => page.evaluate(() => document.documentElement.scrollWidth);
  for (const name of ['Fit', 'Print', 'Try', 'Measure'] as const) {
    await toSheet(page, name);
    await nextPicture(page);
    expect(await across(), name).toBeLessThanOrEqual(360);
  }
  await drawerOut(page);
  expect(await across(), 'drawer').toBeLessThanOrEqual(360);
  await page.locator('#drawer-handle').click();
  await shows(page, 'phone');

  const isInSight = (selector: string) =>
    page.evaluate((wanted) => {
      const { top, bottom } = document.querySelector(wanted)!.getBoundingClientRect();
      return bottom > 40 && top < innerHeight - 40;
    }, selector);
  for (const id of ['barDiameter', 'farSide', 'travel']) {
    await page.locator(`#reading-${id}`).focus();
    await page.keyboard.type('4');
    await nextPicture(page);
    for (const what of ['.current-reading .big', '.verdict-line', `#reading-${id}`])
      expect(await isInSight(what), `${id}: ${what}`).toBe(true);
    await page.keyboard.press('Escape');
  }
  await page.locator('#reading-farSide').focus();
  await page.keyboard.type('5.7');
  await nextPicture(page);
  await shows(page, 'phone-typing');
});

test('the current reading is larger than everything else one reads, and figures are legible', async () => {
  const page = await open();
  await settled(page);
  await page.locator('#reading-socketWidth').focus();
  const size = (selector: string) =>
    page
      .locator(selector)
      .first()
      .evaluate((element) => Number.parseFloat(getComputedStyle(element).fontSize));
  expect(await size('.current-reading .big')).toBeGreaterThanOrEqual(32);
  expect(await size('#reading-socketWidth')).toBeGreaterThanOrEqual(16);
});

test('nothing moves for longer than 150 ms, and nothing at all where motion is unwelcome', async () => {
  const page = await open();
  await settled(page);
  const longest = () =>
    page.evaluate(() => {
      const ms = (text: string) =>
        Math.max(...text.split(',').map((one) => Number.parseFloat(one) * (/\dms/.test(one) ? 1 : 1000)));
      return Math.max(
        ...[...document.querySelectorAll('*')].flatMap((element) => {
          const { transitionDuration, transitionDelay, animationName, animationDuration } =
            getComputedStyle(element);
          const moving = animationName === 'none' ? 0 : ms(animationDuration);
          return [ms(transitionDuration) + ms(transitionDelay), moving];
        }),
      );
    });
  for (const name of ['Fit', 'Print', 'Try', 'Measure'] as const) {
    await toSheet(page, name);
    await page.emulateMedia({ reducedMotion: 'no-preference' });
    expect(await longest(), name).toBeLessThanOrEqual(150);
    await page.emulateMedia({ reducedMotion: 'reduce' });
    expect(await longest(), `${name}, still`).toBeLessThanOrEqual(1);
  }
});

test('paper by day, blueprint by night', async () => {
  const page = await open({ reducedMotion: 'reduce' });
  await settled(page);
  const ground = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  expect(await ground()).toBe('rgb(246, 244, 238)');
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await ground()).toBe('rgb(15, 34, 54)');
  await shows(page, 'night');
});

test('what is spoken is the verdict, once it has settled', async () => {
  const page = await open();
  await settled(page);
  const spoken = page.locator('.verdict-line [role=status]');
  await expect.poll(() => spoken.textContent()).toMatch(/^95 % .*first time\./);
  // Nothing is said of what comes between two digits.
  const said = await page.evaluate(async () => {
    const live = document.querySelector('.verdict-line [role=status]')!;
    const field = document.querySelector<HTMLInputElement>('#reading-socketWidth')!;
    const heard: (string | null)[] = [];
    // A line that is emptied says nothing.
    new MutationObserver(() => live.textContent && heard.push(live.textContent)).observe(live, {
      ...{ subtree: true, childList: true, characterData: true },
    });
    field.focus();
    for (const text of ['4', '4.', '4.5', '4.59']) {
      field.value = text;
      field.dispatchEvent(new InputEvent('input', { bubbles: true }));
      await new Promise((rest) => setTimeout(rest, 60));
    }
    while (heard.length === 0) await new Promise((rest) => setTimeout(rest, 50));
    return heard;
  });
  expect(said).toHaveLength(1);
  expect(said[0]).toMatch(/first time/);
  expect(said[0]).not.toMatch(/^95 %/);
});
