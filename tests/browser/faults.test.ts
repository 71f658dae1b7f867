import type { Page, Worker } from 'playwright-core';
import { expect, test } from 'vitest';
import { drawerOut, settled, taken, typeNumber } from './hands.ts';
import { visits } from './visits.ts';

const { open } = visits();

const reckoning = (page: Page) => page.getByRole('region', { name: 'Reckoning', exact: true });
const goOn = (page: Page) => reckoning(page).getByRole('button', { name: 'go on' }).click();

/** The workers of the page; the one of the verdict is opened first. */
const workers = (page: Page): readonly Worker[] => page.workers();

async function socketWidths(page: Page): Promise<readonly string[]> {
  await drawerOut(page);
  const { text } = await taken(page, () =>
    page
      .locator('.drawer li.on-bench')
      .getByRole('button', { name: /away as a file$/ })
      .click(),
  );
  return JSON.parse(text).readings.socketWidth;
}

test('a worker that dies: the page says what happened, the job is safe, one click goes on', async () => {
  const page = await open({ expects: /on purpose/ });
  await settled(page);
  await workers(page)[0]!.evaluate(() => {
    setTimeout(() => {
      throw new Error('wasm trap, on purpose');
    });
  });
  await reckoning(page).waitFor();
  expect(await reckoning(page).textContent()).toMatch(/The reckoning stopped: .*Your job is safe/);
  expect(await page.locator('.verdict-line .figure').textContent()).toBe('95 %');
  await goOn(page);
  await settled(page);
  await reckoning(page).waitFor({ state: 'detached' });
  await page.locator('#reading-socketWidth').focus();
  await typeNumber(page, '4.05');
  await settled(page);
  expect((await socketWidths(page)).at(-1)).toBe('4.05');
});

test('typing on after it died tries again by itself, and loses nothing', async () => {
  const page = await open({ expects: /on purpose/ });
  await settled(page);
  await workers(page)[0]!.evaluate(() => {
    setTimeout(() => {
      throw new Error('wasm trap, on purpose');
    });
  });
  await reckoning(page).waitFor();
  await page.locator('#reading-socketWidth').focus();
  await typeNumber(page, '4.05');
  await settled(page);
  await reckoning(page).waitFor({ state: 'detached' });
  expect((await socketWidths(page)).at(-1)).toBe('4.05');
});

test('geometry that cannot be fetched: said once, and one click later it is there', async () => {
  let fails = true;
  const page = await open({
    expects: /Failed to load resource|wasm|ERR_FAILED|ArrayBuffer instantiation/i,
    before: (context) => context.route(/\.wasm$/, (route) => (fails ? route.abort() : route.continue())),
  });
  await reckoning(page).waitFor();
  expect(await reckoning(page).textContent()).toMatch(/Your job is safe\. Nothing is worked out yet/);
  // The form needs no geometry.
  expect(await page.locator('#reading-socketWidth').inputValue()).toBe('4.016');
  fails = false;
  await goOn(page);
  expect(await settled(page)).toBe('95 %');
  await reckoning(page).waitFor({ state: 'detached' });
});

test('a reckoning that takes long says so and can be stopped', async () => {
  const page = await open();
  await settled(page);
  // Busy until it is ended from outside.
  void workers(page)[0]!
    .evaluate(() => {
      for (;;);
    })
    .catch(() => {});
  await page.locator('#reading-socketWidth').focus();
  await typeNumber(page, '4.05');
  await page.locator('.wait-chip').waitFor();
  expect(await page.locator('.verdict-line.stale .figure').textContent()).toMatch(/%$/);
  await page.locator('.wait-chip').getByRole('button', { name: 'stop' }).click();
  expect(await reckoning(page).textContent()).toMatch(/Stopped\. Your job is safe/);
  await goOn(page);
  await settled(page);
  expect((await socketWidths(page)).at(-1)).toBe('4.05');
});

test('without WebGL drawing, picture in lines and verdict are there', async () => {
  const page = await open();
  expect(await page.evaluate(() => document.createElement('canvas').getContext('webgl2'))).toBeNull();
  expect(await settled(page)).toBe('95 %');
  await page.locator('.form-sheet.drawn .lines path').first().waitFor();
  const picture = page.locator('.solid .lines .part');
  await picture.waitFor();
  expect((await picture.getAttribute('d'))!.length).toBeGreaterThan(200);
  expect(await page.locator('.solid').textContent()).toContain('WebGL is off');
});

test('typing outruns the reckoning: what is old is marked, only the newest shows, nothing queues', async () => {
  const page = await open({
    before: (context) =>
      context.addInitScript(() => {
        // How often a job is handed to a worker; an answer says nothing of what it was asked.
        const told = globalThis as unknown as { works: number };
        told.works = 0;
        const post = Worker.prototype.postMessage as (...args: unknown[]) => void;
        Worker.prototype.postMessage = function (this: Worker, message: unknown, ...rest: unknown[]) {
          const path = (message as { readonly path?: readonly string[] } | null)?.path;
          if (path?.[0] === 'work') told.works++;
          post.call(this, message, ...rest);
        };
      }),
  });
  const before = await settled(page);
  await page.locator('#reading-socketWidth').focus();
  const { shown, works } = await page.evaluate(async () => {
    const told = globalThis as unknown as { works: number };
    const line = document.querySelector('.verdict-line')!;
    const shown: { readonly stale: boolean; readonly figure: string }[] = [];
    const look = () =>
      shown.push({
        stale: line.classList.contains('stale'),
        figure: line.querySelector('.figure')?.textContent ?? '',
      });
    const watch = new MutationObserver(look);
    watch.observe(line, { subtree: true, childList: true, characterData: true, attributes: true });
    const field = document.querySelector<HTMLInputElement>('#reading-socketWidth')!;
    told.works = 0;
    // Forty numbers in one go, the last of them far from the first.
    for (let k = 0; k < 40; k++) {
      field.value = (4 + k / 100).toFixed(2);
      field.dispatchEvent(new InputEvent('input', { bubbles: true }));
    }
    await new Promise<void>((done) => {
      const clock = setInterval(() => {
        if (shown.length === 0 || shown.at(-1)!.stale) return;
        clearInterval(clock);
        done();
      }, 20);
    });
    watch.disconnect();
    return { shown, works: told.works };
  });
  // The one that was under way, and the newest.
  expect(works).toBeLessThanOrEqual(2);
  expect(works).toBeGreaterThan(0);
  expect(shown[0]).toEqual({ stale: true, figure: before });
  for (const { stale, figure } of shown) if (stale) expect(figure).toBe(before);
  const after = await settled(page);
  expect(shown.at(-1)).toEqual({ stale: false, figure: after });
  expect(after).not.toBe(before);
});
