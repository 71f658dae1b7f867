import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { isBuilt } from '../../viewer/serve/isBuilt.ts';
import { pageServer } from '../../viewer/serve/pageServer.ts';
import { PORT, toldPort } from '../../viewer/serve/toldPort.ts';

const home = mkdtempSync(join(tmpdir(), 'fettle-page-'));
const page = join(home, 'page');
const wasm = Uint8Array.from([0, 97, 115, 109, 1, 0, 0, 0]);
const server = pageServer(page);
let port = 0;

beforeAll(async () => {
  mkdirSync(join(page, 'assets'), { recursive: true });
  writeFileSync(join(page, 'index.html'), '<!doctype html><title>page</title>');
  writeFileSync(join(page, 'assets/a-1.wasm'), wasm);
  writeFileSync(join(page, 'assets/a-1.js'), 'export {}');
  writeFileSync(join(page, 'sw.js'), '');
  writeFileSync(join(page, 'odd.xyz'), '');
  writeFileSync(join(home, 'secret.txt'), 'secret');
  mkdirSync(join(home, 'page-other'));
  writeFileSync(join(home, 'page-other/index.html'), 'secret');
  await new Promise<void>((up) => server.listen(0, '127.0.0.1', up));
  port = (server.address() as AddressInfo).port;
});
afterAll(() => {
  server.close();
  rmSync(home, { recursive: true });
});

/** Asks with the path as it stands: `fetch` would straighten it first. */
const ask = (path: string, method = 'GET') =>
  new Promise<{ status: number; headers: Record<string, unknown>; bytes: Buffer }>((resolve, reject) => {
    request({ host: '127.0.0.1', port, path, method }, (answer) => {
      const pieces: Buffer[] = [];
      answer.on('data', (piece: Buffer) => pieces.push(piece));
      answer.on('end', () =>
        resolve({ status: answer.statusCode!, headers: answer.headers, bytes: Buffer.concat(pieces) }),
      );
    })
      .on('error', reject)
      .end();
  });

describe('the server of the page', () => {
  // Media types as registered: RFC 9239 for JavaScript, RFC 2854 for HTML; "WebAssembly Web API", section 5, compiles a
  // stream as application/wasm alone.
  test.each([
    ['/', 'text/html; charset=utf-8'],
    ['/index.html?job=1', 'text/html; charset=utf-8'],
    ['/assets/a-1.js', 'text/javascript; charset=utf-8'],
    ['/assets/a-1.wasm', 'application/wasm'],
    ['/odd.xyz', 'application/octet-stream'],
  ])('%s comes as %s, with the headers that hold it to its policy', async (path, type) => {
    const { status, headers } = await ask(path);
    expect(status).toBe(200);
    expect(headers).toMatchObject({
      'content-type': type,
      'x-content-type-options': 'nosniff',
      'content-security-policy': expect.stringContaining("frame-ancestors 'none'"),
    });
  });

  test('bytes arrive as they are', async () => {
    expect(new Uint8Array((await ask('/assets/a-1.wasm')).bytes)).toEqual(wasm);
  });

  test('what has its hash in its name is kept, the rest asked for again', async () => {
    expect((await ask('/assets/a-1.js')).headers['cache-control']).toContain('immutable');
    for (const path of ['/', '/sw.js']) expect((await ask(path)).headers['cache-control']).toBe('no-cache');
  });

  test.each([
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/assets/..%2f..%2fsecret.txt',
    '/..%5csecret.txt',
    '/../page-other/',
    '//etc/passwd',
    '/%00',
    '/%zz',
    '/assets',
    '/assets/',
    '/missing.js',
  ])('nothing outside of the folder, and nothing that is no file: %s', async (path) => {
    const { status, bytes } = await ask(path);
    expect(status).toBe(404);
    expect(bytes.toString()).toBe('no such page\n');
  });

  test('only to be read', async () => {
    // RFC 9110, section 15.5.6: 405 comes with the methods there are.
    const { status, headers } = await ask('/', 'POST');
    expect(status).toBe(405);
    expect(headers.allow).toBe('GET, HEAD');
    const head = await ask('/', 'HEAD');
    expect(head.status).toBe(200);
    expect(head.bytes).toHaveLength(0);
    expect(head.headers['content-length']).toBe('34');
  });
});

describe('whether a page is built', () => {
  const at = (name: string, time: number): string => {
    const path = join(home, name);
    writeFileSync(path, '');
    utimesSync(path, time, time);
    return path;
  };

  test('not while it is missing, and not once something is newer than it', async () => {
    mkdirSync(join(home, 'from/deep'), { recursive: true });
    const made = at('made', 2000);
    at('from/deep/old.ts', 1000);
    const from = [join(home, 'from'), join(home, 'not there')];
    expect(await isBuilt(join(home, 'nothing'), from)).toBe(false);
    expect(await isBuilt(made, from)).toBe(true);
    at('from/deep/new.ts', 3000);
    expect(await isBuilt(made, from)).toBe(false);
  });
});

describe('the port', () => {
  test.each([
    [[], PORT],
    [['--port', '8080'], 8080],
    [['--port=1'], 1],
  ])('%j is %i', (words, port) => expect(toldPort(words)).toBe(port));

  test.each([
    [['--port', '0'], '--port 0 - is no port'],
    [['--port', '65536'], '--port 65536 - is no port'],
    [['--port', '8e3'], '--port 8e3 - is no port'],
    [['--port'], '--port - is not understood'],
    [['--host', '::'], '--host :: - is not understood'],
  ])('%j is refused in one line that says what is allowed', (words, said) => {
    expect(toldPort(words)).toBe(`${said}; allowed: --port with a whole number from 1 to 65535`);
  });
});
