/** An object with one entry set, or without it for a blank text; undefined once nothing is left in it.
 *  @example withSetting({ zero: '0.01' }, 'zero', '') // => undefined */
export function withSetting<T extends object>(all: T | undefined, key: string, text: string): T | undefined {
  const { [key]: _, ...others } = (all ?? {}) as Record<string, unknown>;
  const now = text === '' ? others : { ...all, [key]: text };
  return Object.keys(now).length > 0 ? (now as T) : undefined;
}

/** A job, say, with a part of it set, or without that part.
 *  @example withPart({ a: 1, b: 2 }, 'b', undefined) // => { a: 1 } */
export function withPart<T extends object, K extends keyof T>(whole: T, key: K, part: T[K] | undefined): T {
  if (part !== undefined) return { ...whole, [key]: part };
  const { [key]: _, ...others } = whole;
  return others as T;
}
