import { existsSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';
import type { TestProject } from 'vitest/node';
import { isBuilt } from '../../viewer/serve/isBuilt.ts';
import { pageServer } from '../../viewer/serve/pageServer.ts';
import { findBrowser } from './findBrowser.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Address of the built page, served by the project's own server on this machine alone. */
    readonly page: string;
    /** Program of the browser, or why there is none. */
    readonly browser: { readonly program: string } | { readonly missing: string };
  }
}

const at = (path: string): string => fileURLToPath(new URL(path, new URL('../../', import.meta.url)));
const folder = at('dist/page');

/** What is missing fails the tests that need it, and no other. */
function browserHere(): { program: string } | { missing: string } {
  try {
    return { program: findBrowser() };
  } catch (error) {
    return { missing: error instanceof Error ? error.message : String(error) };
  }
}

/** Serves the built page; its address, and how to end that. Builds it unless what is there is as new as its sources. With
 *  FETTLE_BUILT=1 the page there is stands. */
export async function servedPage(): Promise<{ readonly url: string; readonly close: () => void }> {
  const from = ['viewer', 'src', 'parts', 'package-lock.json'].map(at);
  const stands = process.env.FETTLE_BUILT === '1' && existsSync(`${folder}/index.html`);
  if (!stands && !(await isBuilt(`${folder}/index.html`, from))) {
    const { build } = await import('vite');
    await build({ configFile: at('viewer/vite.config.ts'), logLevel: 'error' });
  }
  const server = pageServer(folder);
  await new Promise<void>((up) => server.listen(0, '127.0.0.1', up));
  const close = () => {
    server.close();
    // A browser that is still about keeps its lines open.
    server.closeAllConnections();
  };
  return { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`, close };
}

/** Once before the tests of the page: finds a browser, and serves the page. */
export async function setup(project: TestProject): Promise<() => void> {
  project.provide('browser', browserHere());
  const { url, close } = await servedPage();
  project.provide('page', url);
  return close;
}
