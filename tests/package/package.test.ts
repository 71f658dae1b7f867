import { createHash } from 'node:crypto';
import { copyFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { publint } from 'publint';
import { formatMessage } from 'publint/utils';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Installed, inFolder, installed, root } from './installed.ts';

let there: Installed;
beforeAll(async () => {
  there = await installed();
});
afterAll(() => there?.clear());

const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
const own = (...args: readonly string[]) =>
  inFolder(there.folder, process.execPath, [join(there.folder, 'node_modules/.bin/fettle'), ...args]);
const checkout = (...args: readonly string[]) =>
  inFolder(there.folder, process.execPath, [join(root, 'dist/bin/fettle.js'), ...args]);
const hashes = (folder: string): Readonly<Record<string, string>> =>
  Object.fromEntries(
    readdirSync(join(there.folder, folder)).map((name) => [
      name,
      createHash('sha256')
        .update(readFileSync(join(there.folder, folder, name)))
        .digest('hex'),
    ]),
  );

describe('installed into an empty folder', () => {
  it('brings next to nothing: itself, what it names, and what that needs', () => {
    const found = readdirSync(join(there.folder, 'node_modules')).filter((name) => !name.startsWith('.'));
    expect(Object.keys(manifest.dependencies).sort()).toEqual(['piscina', 'zod']);
    // What piscina takes where the system has it.
    expect(found.filter((name) => name !== '@napi-rs').sort()).toEqual(['fettle', 'piscina', 'zod']);
  });

  it('is what was packed: licences, changes, schemas, types of the API alone', () => {
    for (const name of [
      ...['LICENSE', 'CHANGELOG.md', 'README.md', 'dist/THIRD-PARTY.txt', 'dist/page/THIRD-PARTY.txt'],
      ...['dist/page/index.html', 'dist/schemas/inspection.schema.json', 'dist/api/manifold.wasm'],
      ...['parts/spacer/demo.job.json', 'parts/spacer/README.md'],
    ])
      expect(existsSync(join(there.at, name)), name).toBe(true);
    const readme = readFileSync(join(there.at, 'README.md'), 'utf8');
    const links = [...readme.matchAll(/\]\((?!https?:)([^)#]+)/g)].map(([, path]) => path!);
    expect(links.length).toBeGreaterThan(8);
    expect(links.filter((path) => !existsSync(join(there.at, path)))).toEqual([]);
    for (const name of ['src', 'tests', 'dist/src', 'dist/types/src/cli'])
      expect(existsSync(join(there.at, name)), name).toBe(false);
  });

  it('has the command of the checkout, byte for byte: one job, then several in threads', async () => {
    const demos = ['spacer', 'case-foot'];
    for (const id of demos)
      copyFileSync(join(there.at, `parts/${id}/demo.job.json`), join(there.folder, `${id}.job.json`));
    const jobs = demos.map((id) => `${id}.job.json`);
    const families = JSON.parse(await own('families', '--json')).map(({ id }: { id: string }) => id);
    expect(families).toEqual(expect.arrayContaining(['stabiliser-clip', ...demos]));
    await checkout('bundle', jobs[0]!, '--out', 'theirs');
    await own('bundle', jobs[0]!, '--out', 'ours');
    expect(Object.keys(hashes('ours'))).toEqual(['spacer.fettle.zip']);
    expect(hashes('ours')).toEqual(hashes('theirs'));
    const { summary } = JSON.parse(await own('make', ...jobs, '--out', 'threads', '--hands', '2', '--json'));
    expect(summary).toMatchObject({ made: 2, refused: 0, broke: 0 });
  });

  it('does the rest of the job: new, sheet, coupon, bundle, open', async () => {
    await own('new', 'spacer', 'my.job.json');
    expect(JSON.parse(readFileSync(join(there.folder, 'my.job.json'), 'utf8'))).toMatchObject({
      family: 'spacer',
    });
    await own('sheet', 'my.job.json', '--out', 'sheet.html');
    await own('printer', 'new', 'my.printer.json', '--usual');
    await own('coupon', 'my.printer.json', '--out', 'coupon');
    await own('open', 'ours/spacer.fettle.zip', '--out', 'opened', '--all');
    for (const name of ['sheet.html', 'coupon/my-coupon.stl', 'opened/spacer.job.json'])
      expect(existsSync(join(there.folder, name)), name).toBe(true);
    expect(hashes('opened/made')['spacer.stl']).toBe(hashes('threads')['spacer.stl']);
  });
});

describe('for programs', () => {
  it('README: the example prints what stands below it', async () => {
    const readme = readFileSync(join(there.at, 'README.md'), 'utf8');
    const section = readme.slice(readme.indexOf('## From a program'));
    const [, code = '', printed = ''] =
      /```js\n([\s\S]*?)```\s*prints\s*```\n([\s\S]*?)```/.exec(section) ?? [];
    expect(code).toContain("from 'fettle'");
    writeFileSync(join(there.folder, 'example.mjs'), code);
    expect(await inFolder(there.folder, process.execPath, ['example.mjs'])).toBe(printed);
  });

  it('gives the bytes of the command, and leaves Math as it was', async () => {
    writeFileSync(
      join(there.folder, 'same.mjs'),
      `import { readFileSync } from 'node:fs';
       import { createHash } from 'node:crypto';
       const before = Object.getOwnPropertyNames(Math).map((name) => Math[name]);
       const { make, openJob, packBundle } = await import('fettle');
       const open = await openJob(readFileSync('spacer.job.json', 'utf8'));
       const all = [await packBundle(open, { name: 'spacer' })];
       const foot = await make(await openJob(readFileSync('case-foot.job.json', 'utf8')), { name: 'case-foot' });
       all.push(...foot.files);
       const same = Object.getOwnPropertyNames(Math).every((name, k) => Object.is(Math[name], before[k]));
       const told = all.map(({ name, bytes }) => [name, createHash('sha256').update(bytes).digest('hex')]);
       console.log(JSON.stringify({ same, files: Object.fromEntries(told) }));`,
    );
    const { same, files } = JSON.parse(await inFolder(there.folder, process.execPath, ['same.mjs']));
    expect(same).toBe(true);
    expect(files).toEqual({ ...hashes('theirs'), 'case-foot.stl': hashes('threads')['case-foot.stl'] });
  });

  it.each(['nodenext', 'bundler'])('has types that the strictest check takes: %s', async (resolution) => {
    copyFileSync(join(root, 'tests/package/consumer.ts.txt'), join(there.folder, 'consumer.mts'));
    writeFileSync(
      join(there.folder, 'tsconfig.json'),
      JSON.stringify({
        compilerOptions: {
          ...{ strict: true, exactOptionalPropertyTypes: true, noUncheckedIndexedAccess: true, noEmit: true },
          ...{ skipLibCheck: false, target: 'es2023', lib: ['es2023', 'dom'], types: [] },
          ...{ module: resolution === 'bundler' ? 'esnext' : 'nodenext', moduleResolution: resolution },
        },
        files: ['consumer.mts'],
      }),
    );
    const tsc = join(root, 'node_modules/typescript/bin/tsc');
    const said = await inFolder(there.folder, process.execPath, [tsc, '-p', '.']).catch(
      ({ stdout }: { stdout: string }) => stdout,
    );
    expect(said).toBe('');
  });

  it('publint finds nothing', async () => {
    const { messages, pkg } = await publint({ pkgDir: there.at, strict: true, pack: false });
    expect(messages.map((message) => formatMessage(message, pkg as Record<string, unknown>))).toEqual([]);
  });
});
