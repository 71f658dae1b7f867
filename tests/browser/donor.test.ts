import type { Page } from 'playwright-core';
import { beforeAll, beforeEach, expect, test } from 'vitest';
import { bracket, stlOf } from '../cli/donorModel.ts';
import { barriers } from './barriers.ts';
import { commandBeside } from './commandBeside.ts';
import { drop } from './dropFile.ts';
import { nextPicture, openFiles, settled, take, toSheet, typeNumber } from './hands.ts';
import { sameBytes } from './sameBytes.ts';
import { shows } from './shows.ts';
import { visits } from './visits.ts';

const { open } = visits();

const { put, bytesOf, run } = commandBeside();

let model: Uint8Array;
beforeAll(async () => {
  model = await stlOf(bracket);
});
beforeEach(() => put({ name: 'bracket.stl', bytes: model }));

/** Waits until the sheet of the model is worked out. */
const workedOut = async (page: Page) => {
  await nextPicture(page);
  await page.locator('.model-sheet:not(.busy)').waitFor();
  await page.locator('.verdict-line:not(.stale)').waitFor();
};

/** Lets go of a cube whose faces are divided into n by n squares, made on the page itself: 12 n n triangles. */
const dropFineCube = (page: Page, n: number) =>
  page.evaluate((n) => {
    const buffer = new DataView(new ArrayBuffer(84 + 600 * n * n));
    buffer.setUint32(80, 12 * n * n, true);
    let at = 84;
    const facet = (corners: readonly number[]) => {
      for (const [k, x] of corners.entries()) buffer.setFloat32(at + 12 + 4 * k, x, true);
      at += 50;
    };
    for (const axis of [0, 1, 2])
      for (const side of [0, n])
        for (let i = 0; i < n; i++)
          for (let j = 0; j < n; j++) {
            const place = (u: number, v: number): number[] => {
              const p = [0, 0, 0];
              p[axis] = side;
              p[(axis + 1) % 3] = i + u;
              p[(axis + 2) % 3] = j + v;
              return p;
            };
            const [a, b, c, d] = [place(0, 0), place(1, 0), place(1, 1), place(0, 1)];
            const outward = side === 0 ? [a, c, b, a, d, c] : [a, b, c, a, c, d];
            facet(outward.slice(0, 3).flat());
            facet(outward.slice(3).flat());
          }
    const data = new DataTransfer();
    data.items.add(new File([buffer], 'cube.stl'));
    for (const kind of ['dragenter', 'dragover', 'drop'])
      document
        .querySelector('main')!
        .dispatchEvent(new DragEvent(kind, { dataTransfer: data, bubbles: true, cancelable: true }));
  }, n);

test('a large model says what is being done with it, and is left alone when that is stopped', async () => {
  const page = await open();
  await settled(page);
  const strip = page.getByRole('region', { name: 'Model', exact: true });
  // 307 200 triangles: half a second and more of looking, on any machine.
  await dropFineCube(page, 160);
  await strip.getByText(/^(Reading|Looking for bores and posts on) cube\.stl/).waitFor();
  await strip.getByRole('button', { name: 'stop' }).click();
  await page.getByText('cube.stl was looked at no further; nothing has changed').waitFor();
  expect(await strip.count()).toBe(0);
  await page.getByRole('region', { name: 'Reckoning' }).getByRole('button', { name: 'go on' }).click();
  // The job that was there is there.
  await settled(page);
  expect(await page.getByRole('navigation', { name: 'Sheets' }).getByRole('button').count()).toBe(4);
});

test('a model dropped on the page and made shorter is to the byte what the command makes of it', async () => {
  const page = await open({ reducedMotion: 'reduce' });
  await page.locator('.verdict-line .figure').waitFor();
  await drop(page, 'bracket.stl', model);
  await page.locator('.model-sheet .stretches').waitFor();
  // The neck, 12 mm, to 8.6: typed where its length stands.
  const all = page.getByRole('textbox', { name: /^Length over all along z/ });
  expect(await all.inputValue()).toBe('30.00');
  await all.focus();
  await page.keyboard.type('26.6');
  await page.keyboard.press('Enter');
  await workedOut(page);
  await expect.poll(() => all.inputValue()).toBe('26.60');
  await shows(page, 'model');
  expect(await barriers(page)).toEqual([]);
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await barriers(page, true)).toEqual([]);

  // Then the bore for the peg of the machine, by callipers.
  await toSheet(page, 'Measure');
  await page.locator('#reading-bore1').focus();
  for (const text of ['3.01', '3.00', '3.02']) await typeNumber(page, text);
  await settled(page);
  await toSheet(page, 'Print');
  const job = await take(page, 'job');
  expect(JSON.parse(job.text)).toMatchObject({
    ...{ family: 'donor', readings: { bore1: ['3.01', '3.00', '3.02'] } },
    donor: { file: 'bracket.stl', changes: [{ axis: 'z', by: -3.4 }] },
  });
  const [part, bundle] = [await take(page, 'STL'), await take(page, 'bundle')];

  put(job);
  await run('refit', 'bracket.stl', '--job', job.name, '--yes', '--out', 'out');
  sameBytes(part.bytes, bytesOf(`out/${part.name}`), 'refit');
  await run('bundle', job.name, '--out', 'out');
  sameBytes(bundle.bytes, bytesOf(`out/${bundle.name}`), 'bundle');

  // The bundle brings its model along, to a browser that has never seen it.
  const other = await open();
  await openFiles(other, [{ name: bundle.name, bytes: bundle.bytes }]);
  await other.getByRole('region', { name: 'Done' }).getByText('is on the bench').waitFor();
  await settled(other);
  await toSheet(other, 'Print');
  sameBytes((await take(other, 'STL')).bytes, part.bytes, 'out of the bundle');
});
