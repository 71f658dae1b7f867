// How much the page has to do while a stretch of a large model is pulled: `npx tsx tests/bench/modelPull.ts`.
// Processor time of the page's own thread, which a loaded machine does not change; what the graphics card draws is not in it.

import { drop } from '../browser/dropFile.ts';
import { findBrowser } from '../browser/findBrowser.ts';
import { launched } from '../browser/launched.ts';
import { servedPage } from '../browser/servePage.ts';

/** Sides of the turned part and rings along it: 2 x sides x rings triangles, caps among them. */
const [SIDES, RINGS] = [250, 200];
const MOVES = 60;

/** A turned part in binary STL: a foot 8 mm high, a neck of 22 mm whose section stays the same, a head. */
function turnedPart(): Uint8Array {
  const rings = Array.from({ length: RINGS }, (_, k) => {
    const at = (from: number, to: number) => (k / RINGS - from) / (to - from);
    if (at(0, 0.2) < 1) return [20, 8 * at(0, 0.2)] as const;
    if (at(0.2, 0.3) < 1) return [20 - 12 * at(0.2, 0.3), 8] as const;
    if (at(0.3, 0.6) < 1) return [8, 8 + 22 * at(0.3, 0.6)] as const;
    return [8 + 4 * Math.sin(3 * at(0.6, 1)), 30 + 14 * at(0.6, 1)] as const;
  });
  const point = (ring: number, side: number) => {
    const [radius, z] = rings[ring]!;
    const angle = (2 * Math.PI * (side % SIDES)) / SIDES;
    return [radius * Math.cos(angle), radius * Math.sin(angle), z];
  };
  const facets: number[][] = [];
  for (let side = 0; side < SIDES; side++) {
    for (let ring = 0; ring + 1 < RINGS; ring++) {
      const [a, b] = [point(ring, side), point(ring, side + 1)];
      const [c, d] = [point(ring + 1, side + 1), point(ring + 1, side)];
      facets.push([...a, ...b, ...c], [...a, ...c, ...d]);
    }
    facets.push([0, 0, 0, ...point(0, side + 1), ...point(0, side)]);
    facets.push([0, 0, rings.at(-1)![1], ...point(RINGS - 1, side), ...point(RINGS - 1, side + 1)]);
  }
  const file = new DataView(new ArrayBuffer(84 + 50 * facets.length));
  file.setUint32(80, facets.length, true);
  for (const [n, facet] of facets.entries())
    for (const [k, x] of facet.entries()) file.setFloat32(84 + 50 * n + 12 + 4 * k, x, true);
  return new Uint8Array(file.buffer);
}

const { url, close } = await servedPage();
const browser = await launched(findBrowser(), true);
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 }, reducedMotion: 'reduce' });
  await page.goto(url);
  await page.locator('.verdict-line .figure').waitFor();
  await drop(page, 'turned.stl', turnedPart());
  const handle = page.locator('.band-handle').last();
  await handle.waitFor({ timeout: 300_000 });
  // What is worked out beside it is no part of a pull.
  await page.locator('.verdict-line:not(.stale)').waitFor({ timeout: 300_000 });
  await page.waitForTimeout(2_000);
  const profile = await page.context().newCDPSession(page);
  await profile.send('Performance.enable', { timeDomain: 'threadTicks' });
  const spent = async (): Promise<number> => {
    const { metrics } = await profile.send('Performance.getMetrics');
    return 1000 * metrics.find(({ name }) => name === 'TaskDuration')!.value;
  };
  const { x, y } = (await handle.boundingBox())!;
  await page.mouse.move(x + 22, y + 22);
  await page.mouse.down();
  const before = await spent();
  for (let move = 1; move <= MOVES; move++) {
    await page.mouse.move(x + 22, y + 22 - move);
    await page.evaluate(() => new Promise<void>((drawn) => requestAnimationFrame(() => drawn())));
  }
  const each = ((await spent()) - before) / MOVES;
  const told = await handle.getAttribute('aria-valuetext');
  console.log(
    `${2 * SIDES * RINGS} triangles, pulled to ${told}: ${each.toFixed(1)} ms of the page's thread a move, ${Math.floor(1000 / each)} moves a second`,
  );
} finally {
  await browser.close();
  close();
}
