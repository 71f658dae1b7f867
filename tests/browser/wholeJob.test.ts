import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { rawUnzip } from '../archive/rawZip.ts';
import { demoJob } from '../cli/fettle.ts';
import { commandBeside } from './commandBeside.ts';
import {
  type HandedOver,
  openFiles,
  readingAtHand,
  settled,
  tabTo,
  take,
  toSheet,
  typeNumber,
} from './hands.ts';
import { sameBytes } from './sameBytes.ts';
import { shows } from './shows.ts';
import { visits } from './visits.ts';

const { open } = visits();
/** With the part in the round, which the processor draws here and is slow at. */
const solid = visits({ webgl: true });

const { put, bytesOf, run } = commandBeside();

/** Holds an archive to another one, file by file first: which of them parts says more than where the archives do. */
function sameBundle({ bytes }: HandedOver, wanted: Uint8Array): void {
  const [mine, theirs] = [rawUnzip(bytes), rawUnzip(wanted)];
  expect(mine.map(({ name }) => name)).toEqual(theirs.map(({ name }) => name));
  // The list of them comes first, and knows them by their sums: it is the last to say what is wrong.
  for (const [k, { name, data }] of [...mine.entries()].reverse()) sameBytes(data, theirs[k]!.data, name);
  sameBytes(bytes, wanted, 'bundle');
}

/** What the command makes of the file of a job: the bytes of a file it wrote, by its name. */
async function commandMakes(
  job: Pick<HandedOver, 'name' | 'bytes'>,
  deed: 'make' | 'bundle',
  ...also: readonly string[]
): Promise<(name: string) => Uint8Array> {
  put(job);
  await run(deed, job.name, '--out', deed, ...also);
  return (name) => bytesOf(`${deed}/${name}`);
}

test('from an empty page to the part by keys alone; every file is to the byte what the command makes', async () => {
  const page = await solid.open();
  await settled(page);
  await shows(page, 'first-visit');
  await tabTo(page, page.locator('#drawer-handle'));
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('button', { name: 'Stabiliser clip', exact: true }));
  await page.keyboard.press('Enter');
  const first = page.locator('#reading-barDiameter');
  await page.locator('.problems').waitFor();
  await tabTo(page, first);

  // As callipers with a cable type: number, Enter, number, Enter, and nobody looks at the screen.
  const { readings } = JSON.parse(readFileSync(demoJob, 'utf8')) as {
    readonly readings: Readonly<Record<string, readonly string[]>>;
  };
  for (const [id, texts] of Object.entries(readings))
    for (const text of texts) {
      expect(await readingAtHand(page)).toBe(id);
      await typeNumber(page, text);
    }
  const figure = await settled(page);

  await tabTo(
    page,
    page.getByRole('navigation', { name: 'Sheets' }).getByRole('button', { name: /Print/ }),
    'Shift+Tab',
  );
  await page.keyboard.press('Enter');
  const job = await take(page, 'job');
  expect(JSON.parse(job.text)).toMatchObject({ family: 'stabiliser-clip', readings });
  const files = {
    stl: await take(page, 'STL'),
    threeMf: await take(page, '3MF'),
    drawing: await take(page, 'drawing'),
    report: await take(page, 'report'),
  };
  const bundle = await take(page, 'bundle');
  await shows(page, 'print');

  const made = await commandMakes(job, 'make', '--3mf', '--drawing', '--report');
  for (const [kind, { name, bytes }] of Object.entries(files)) {
    expect(bytes.length, kind).toBeGreaterThan(1000);
    sameBytes(bytes, made(name), kind);
  }
  const packed = await commandMakes(job, 'bundle');
  sameBundle(bundle, packed(bundle.name));
  const { chance } = JSON.parse(await run('check', job.name, '--json'));
  expect(figure).toBe(`${Math.round(100 * chance)} %`);
});

test.each(['case-foot', 'socket-cover'])(
  'the demo of %s comes in as a file and leaves as the bundle of the command',
  async (id) => {
    const page = await open();
    const bytes = readFileSync(`parts/${id}/demo.job.json`);
    await openFiles(page, [{ name: 'demo.job.json', bytes }]);
    await page.getByRole('region', { name: 'Done' }).waitFor();
    await settled(page);
    await toSheet(page, 'Print');
    const job = await take(page, 'job');
    expect(JSON.parse(job.text)).toEqual(JSON.parse(bytes.toString()));
    const bundle = await take(page, 'bundle');
    sameBundle(bundle, (await commandMakes(job, 'bundle'))(bundle.name));
    await shows(page, id);
  },
);

test('a bundle is opened, with its printer, and makes the same part', async () => {
  const page = await open();
  const given = { name: 'theirs.job.json', bytes: readFileSync(demoJob) };
  const bundle = (await commandMakes(given, 'bundle'))('theirs.fettle.zip');
  const made = (await commandMakes(given, 'make'))('theirs.stl');
  await openFiles(page, [{ name: 'theirs.fettle.zip', bytes: bundle }]);
  await page.getByRole('region', { name: 'Done' }).waitFor();
  expect(await settled(page)).toBe('95 %');
  await toSheet(page, 'Print');
  // The title in a STL, and so all of it, comes from the job.
  sameBytes((await take(page, 'STL')).bytes, made, 'STL');
});
