import type { PrinterProfile } from '../../../src/printer/types.ts';

export type CouponTexts = Readonly<Record<string, readonly string[]>>;

/** By what the readings of a printer's coupon are kept while they are taken: all that decides which print it is. */
export const couponKey = ({ name, material, layer, firstLayer, lineWidth }: PrinterProfile): string =>
  JSON.stringify([name, material, layer, firstLayer, lineWidth]);

/** Where a browser keeps small things. */
export type SmallStore = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** That place; undefined where the browser forbids it. */
export function browserStore(): SmallStore | undefined {
  try {
    return globalThis.localStorage;
  } catch {
    return undefined;
  }
}

const PREFIX = 'fettle.coupon.';

/** Readings kept under a key; undefined where there are none or they are no readings. */
export function keptTexts(store: SmallStore | undefined, key: string): CouponTexts | undefined {
  try {
    const value: unknown = JSON.parse(store?.getItem(PREFIX + key) ?? 'null');
    return isTexts(value) ? value : undefined;
  } catch {
    return undefined;
  }
}

/** Keeps readings; false where the browser keeps nothing. */
export function keepTexts(store: SmallStore | undefined, key: string, texts: CouponTexts): boolean {
  try {
    if (!store) return false;
    store.setItem(PREFIX + key, JSON.stringify(texts));
    return true;
  } catch {
    return false;
  }
}

const isTexts = (value: unknown): value is CouponTexts =>
  typeof value === 'object' &&
  value !== null &&
  !Array.isArray(value) &&
  Object.values(value).every(
    (texts) => Array.isArray(texts) && texts.every((text) => typeof text === 'string' && text.length <= 200),
  );
