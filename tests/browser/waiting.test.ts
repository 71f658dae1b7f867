import type { Route } from 'playwright-core';
import { expect, test } from 'vitest';
import { settled, typeNumber } from './hands.ts';
import { visits } from './visits.ts';

const { open } = visits();

test('a long wait is spoken of once and ends by the verdict, and nothing is said key by key', async () => {
  const held: Route[] = [];
  let holds = true;
  const page = await open({
    before: async (context) => {
      await context.route('**/*.wasm', (route) => (holds ? void held.push(route) : route.continue()));
      const { clock } = context;
      await clock.install({ time: '2026-11-21T12:00:00' });
      // Everything a screen reader would hear of places that speak by themselves.
      await context.addInitScript(() => {
        const heard: string[] = [];
        Object.assign(globalThis, { heard });
        new MutationObserver((changes) => {
          for (const { target } of changes) {
            const element = target instanceof Element ? target : target.parentElement;
            const status = element?.closest('[role=status]');
            const text = status?.textContent?.trim() ?? '';
            if (text !== '') heard.push(text);
          }
        }).observe(document, { subtree: true, childList: true, characterData: true });
      });
    },
  });
  const heard = () => page.evaluate(() => (globalThis as unknown as { heard: string[] }).heard);
  const still = async () => (await heard()).filter((text) => /reckoning/.test(text));
  await page.locator('.wait-chip').waitFor();
  expect(await still()).toEqual([]);
  await page.clock.fastForward(4500);
  await expect.poll(still).toEqual(['Still reckoning the part.']);
  holds = false;
  for (const route of held) await route.continue();
  const figure = await settled(page);
  const spoken = async () => (await heard()).filter((text) => text.startsWith(figure));
  await expect.poll(spoken).toHaveLength(1);
  expect(await still()).toHaveLength(1);

  const before = (await heard()).length;
  await page.locator('#reading-socketWidth').focus();
  await typeNumber(page, '4.02');
  await settled(page);
  await page.clock.fastForward(1500);
  const after = (await heard()).slice(before);
  // The number is taken, and where its doubt moved the verdict, that; no digit on the way.
  expect(after.length).toBeLessThanOrEqual(3);
  expect(after.filter((text) => /reckoning|^4|^4\.0$/.test(text))).toEqual([]);
});
