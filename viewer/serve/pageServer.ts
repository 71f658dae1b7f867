import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { extname, join, resolve, sep } from 'node:path';
import { securityHeaders } from '../securityHeaders.ts';
import { mediaTypes } from './mediaTypes.ts';

/** A server of the files in one folder and of nothing else, with the headers that hold the page to its policy. It listens
 *  nowhere yet: `listen(port, '127.0.0.1')` keeps it on this machine. */
export const pageServer = (folder: string): Server =>
  createServer((request, response) => {
    answer(resolve(folder), request, response).catch(() => refuse(response, 500, 'it could not be read'));
  });

async function answer(folder: string, request: IncomingMessage, response: ServerResponse): Promise<void> {
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.setHeader('Allow', 'GET, HEAD');
    refuse(response, 405, 'only to be read');
    return;
  }
  const path = pathOf(request.url ?? '/');
  const file = path === undefined ? undefined : await fileAt(folder, path);
  if (file === undefined) {
    refuse(response, 404, 'no such page');
    return;
  }
  response.writeHead(200, {
    ...securityHeaders,
    'Content-Type': mediaTypes[extname(file.path)] ?? 'application/octet-stream',
    'Content-Length': file.size,
    // What is in assets has its hash in its name; the rest is asked for again each time.
    'Cache-Control': file.isHashed ? 'public, max-age=31536000, immutable' : 'no-cache',
  });
  if (request.method === 'HEAD') {
    response.end();
    return;
  }
  // A file that goes while it is read ends the answer short, which the browser notices by its length.
  createReadStream(file.path)
    .on('error', () => response.destroy())
    .pipe(response);
}

function refuse(response: ServerResponse, status: number, words: string): void {
  if (response.headersSent) {
    response.destroy();
    return;
  }
  response.writeHead(status, { ...securityHeaders, 'Content-Type': 'text/plain; charset=utf-8' });
  response.end(`${words}\n`);
}

/** Path of a request, decoded; undefined for what is none. */
function pathOf(url: string): string | undefined {
  try {
    const path = decodeURIComponent(url.replace(/[?#].*$/s, ''));
    return path.startsWith('/') && !/[\0\\]/.test(path) ? path : undefined;
  } catch {
    return undefined;
  }
}

async function fileAt(
  folder: string,
  path: string,
): Promise<{ readonly path: string; readonly size: number; readonly isHashed: boolean } | undefined> {
  const at = join(folder, path.endsWith('/') ? `${path}index.html` : path);
  if (!at.startsWith(folder + sep)) return undefined;
  const found = await stat(at).catch(() => undefined);
  if (!found?.isFile()) return undefined;
  return { path: at, size: found.size, isHashed: at.startsWith(join(folder, 'assets') + sep) };
}
