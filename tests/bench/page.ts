import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import type { Family } from '../../src/family/family.ts';
import { make } from '../../src/job/make.ts';
import { readJob } from '../../src/job/readJob.ts';
import type { ManifoldToplevel } from '../../src/solid/kernel.ts';
import { findBrowser } from '../browser/findBrowser.ts';
import { launched } from '../browser/launched.ts';
import { servedPage } from '../browser/servePage.ts';
import { median, type Ratio } from './ratio.ts';

/** What a screen takes to show what is there, ms, at 60 pictures a second. */
const FRAME = 1000 / 60;
/** Keystrokes measured, and those before that warm both sides up. */
const [STROKES, WARM] = [60, 8];
/** What the first look does not need, and what holds it back here. */
const later = { three: /SolidView/, wasm: /\.wasm$/ } as const;

/** The page in a browser: what a keystroke takes to its verdict against the pipeline itself in Node, in turns; what is
 *  loaded first; whether one can type before three and wasm are there. */
export async function pageRatios(
  kernel: ManifoldToplevel,
  families: readonly Family[],
  text: string,
): Promise<readonly Ratio[]> {
  const { url, close } = await servedPage();
  const browser = await launched(findBrowser(), true);
  try {
    console.log(await firstLoad(browser, url));
    return await keystrokes(browser, url, () => void make(kernel, readJob(text, families)));
  } finally {
    await browser.close();
    close();
  }
}

async function keystrokes(browser: Browser, url: string, pipeline: () => void): Promise<readonly Ratio[]> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(url);
  await page.locator('.verdict-line:not(.stale) .figure').waitFor();
  await page.locator('#reading-socketWidth').focus();
  await page.keyboard.type('4.0');
  const [shown, own]: [number[], number[]] = [[], []];
  for (let k = 0; k < WARM + STROKES; k++) {
    await quiet(page);
    const took = await strokeToVerdict(page, k % 2 === 0 ? String(1 + (k % 9)) : 'Backspace');
    const start = performance.now();
    pipeline();
    const alone = performance.now() - start;
    if (k < WARM) continue;
    shown.push(took);
    own.push(alone);
  }
  await page.close();
  const share = (part: number) => (values: readonly number[]) =>
    [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(part * values.length))]!;
  const row = (name: string, of: (values: readonly number[]) => number): Ratio => ({
    name: `page: keystroke to verdict, less a frame / pipeline in Node, ${name}`,
    ratio: (of(shown) - FRAME) / of(own),
    goal: { side: 'at most', value: 2 },
    detail: `${of(shown).toFixed(1)} ms / ${of(own).toFixed(1)} ms`,
  });
  return [row('median', median), row('95th percentile', share(0.95))];
}

/** Waits until the page has nothing left to do: drawing and picture follow the verdict. */
async function quiet(page: Page): Promise<void> {
  await page.locator('.in-the-round:not(.stale)').waitFor();
  await page.waitForTimeout(60);
}

/** From the event of the key to the picture with its verdict, ms, by the clock of the page. */
async function strokeToVerdict(page: Page, key: string): Promise<number> {
  // In place before the key is pressed, and asked after.
  const watched = await page.evaluateHandle(() => {
    const line = document.querySelector('.verdict-line')!;
    const took = new Promise<number>((resolve) => {
      let pressed = Number.NaN;
      let wasStale = false;
      // No name for this one: what runs the bench would want help from outside the page to give it one.
      addEventListener(
        'keydown',
        ({ timeStamp }) => {
          pressed = timeStamp;
        },
        { once: true, capture: true },
      );
      const watch = new MutationObserver(() => {
        const stale = line.classList.contains('stale');
        if (stale) wasStale = true;
        if (stale || !wasStale) return;
        watch.disconnect();
        requestAnimationFrame(() => resolve(performance.now() - pressed));
      });
      watch.observe(line, { attributes: true });
    });
    return { took };
  });
  await page.keyboard.press(key);
  const took = await watched.evaluate(({ took }) => took);
  await watched.dispose();
  return took;
}

/** What comes over the line until one can type, and how long that takes while three and wasm are held back. */
async function firstLoad(browser: Browser, url: string): Promise<string> {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const page = await context.newPage();
  let letGo = () => {};
  const gate = new Promise<void>((open) => {
    letGo = open;
  });
  let isHeld = false;
  await context.route(
    (address) => Object.values(later).some((one) => one.test(address.pathname)),
    async (route) => {
      isHeld = true;
      await gate;
      await route.continue();
    },
  );
  const sizes = new Map<string, Promise<number>>();
  page.on('response', (response) => {
    sizes.set(
      new URL(response.url()).pathname,
      response.body().then(
        (body) => gzipSync(body, { level: 9 }).length,
        () => 0,
      ),
    );
  });
  const start = performance.now();
  await page.goto(url);
  const field = page.locator('#reading-socketWidth');
  await field.waitFor();
  await field.fill('4.05');
  const typed = performance.now() - start;
  const first = new Map(
    await Promise.all([...sizes].map(async ([path, size]) => [path, await size] as const)),
  );
  if (!isHeld) throw new Error('three and wasm were not asked for while they were to be held back');
  letGo();
  await page.locator('.verdict-line:not(.stale) .figure').waitFor();
  const made = performance.now() - start - typed;
  await page.locator('.solid canvas').waitFor();
  const whole = new Map(
    await Promise.all([...sizes].map(async ([path, size]) => [path, await size] as const)),
  );
  await context.close();

  const sum = (map: ReadonlyMap<string, number>, which: RegExp) =>
    [...map].reduce((total, [path, size]) => total + (which.test(path) ? size : 0), 0);
  const kB = (bytes: number) => `${(bytes / 1000).toFixed(0)} kB`;
  const worker = sum(first, /worker/);
  const code = sum(first, /(\/|\.html|\.css|\.js)$/) - worker;
  return (
    `page: first load, gzip: html, css and js ${kB(code)}, fonts ${kB(sum(first, /\.woff2?$/))}, worker ${kB(worker)}; ` +
    `then three ${kB(sum(whole, later.three))}, wasm ${kB(sum(whole, later.wasm))}\n` +
    `page: a number typed ${typed.toFixed(0)} ms after the address, before three and wasm came; ` +
    `its verdict ${made.toFixed(0)} ms after they were let go`
  );
}
