import type { Page } from 'playwright-core';

/** Lets go of a file over the page, as one that is pulled there from a folder. */
export async function drop(page: Page, name: string, bytes: Uint8Array): Promise<void> {
  const held = await page.evaluateHandle(
    ({ called, base64 }) => {
      const data = new DataTransfer();
      data.items.add(new File([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], called));
      return data;
    },
    { called: name, base64: Buffer.from(bytes).toString('base64') },
  );
  for (const kind of ['dragenter', 'dragover', 'drop'])
    await page.dispatchEvent('main', kind, { dataTransfer: held });
}
