import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, inject } from 'vitest';
import { launched } from './launched.ts';

export interface VisitOptions extends BrowserContextOptions {
  /** Faults that this test brings about on purpose. */
  readonly expects?: RegExp;
  /** Called before the page is asked for. */
  readonly before?: (context: BrowserContext) => Promise<unknown>;
  /** What is asked for, below the address of the page. */
  readonly path?: string;
}

export interface Visits {
  /** A browser that was never here opens the page. Resolves when it is laid out. */
  open(options?: VisitOptions): Promise<Page>;
  /** One more tab of the same browser. */
  tab(beside: Page): Promise<Page>;
  /** Says so now rather than after the test: nothing went wrong up to here. */
  nothingWrong(): void;
}

/** Opens pages for the tests of one file in one browser, and watches every one of them: after each test there was no error
 *  in the console, nothing the policy forbids, and nothing asked for from elsewhere. */
export function visits({ webgl = false }: { readonly webgl?: boolean } = {}): Visits {
  let browser: Browser | undefined;
  let contexts: BrowserContext[] = [];
  let faults: string[] = [];

  beforeAll(async () => {
    const here = inject('browser');
    if ('missing' in here) throw new Error(here.missing);
    browser = await launched(here.program, webgl);
  });
  const nothingWrong = () => expect(faults).toEqual([]);
  afterEach(async () => {
    const said = faults;
    await Promise.all(contexts.map((context) => context.close()));
    contexts = [];
    faults = [];
    expect(said).toEqual([]);
  });
  afterAll(() => browser?.close());

  const ready = async (page: Page, path = '') => {
    await page.goto(`${inject('page')}${path}`);
    await page.locator('header.sheets').waitFor();
  };
  return {
    async open({ expects, before, path, ...options } = {}) {
      const context = await browser!.newContext({ viewport: { width: 1280, height: 900 }, ...options });
      contexts.push(context);
      const note = (fault: string) => expects?.test(fault) || faults.push(fault);
      await watch(context, note);
      await before?.(context);
      const page = await context.newPage();
      await ready(page, path);
      return page;
    },
    async tab(beside) {
      const page = await beside.context().newPage();
      await ready(page);
      return page;
    },
    nothingWrong,
  };
}

async function watch(context: BrowserContext, note: (fault: string) => void): Promise<void> {
  const home = new URL(inject('page')).origin;
  context.on('console', (message) => {
    const text = message.text();
    if (message.type() === 'error' || /content security policy/i.test(text)) note(`console: ${text}`);
  });
  context.on('weberror', (error) => note(`thrown: ${error.error()}`));
  context.on('request', (request) => {
    const { protocol, origin } = new URL(request.url());
    if (!['data:', 'blob:'].includes(protocol) && origin !== home) note(`asked elsewhere: ${request.url()}`);
  });
  await context.exposeFunction('policyBroken', (said: string) => note(`against the policy: ${said}`));
  await context.addInitScript(() => {
    addEventListener(
      'securitypolicyviolation',
      ({ violatedDirective, blockedURI, sourceFile, lineNumber, columnNumber }) => {
        (globalThis as unknown as { policyBroken(said: string): void }).policyBroken(
          `${violatedDirective} ${blockedURI} ${sourceFile}:${lineNumber}:${columnNumber}`,
        );
      },
    );
  });
}
