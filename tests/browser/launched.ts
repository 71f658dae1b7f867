import { type Browser, chromium } from 'playwright-core';

/** What a browser of the tests is started with. It asks nobody for anything by itself: what leaves the page then leaves it
 *  by the page's own doing. */
const quiet = [
  '--no-sandbox',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
/** The picture in the round, drawn by the processor as no machine that tests need have a card for it. */
const drawing = ['--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'];
const without = ['--disable-gpu', '--disable-3d-apis'];

/** Starts a browser of the tests, without a window. */
export const launched = (program: string, webgl: boolean): Promise<Browser> =>
  chromium.launch({ executablePath: program, args: [...quiet, ...(webgl ? drawing : without)] });
