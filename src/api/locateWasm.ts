let at: string | undefined;

/** Says where `manifold.wasm`, which lies beside this module in the package, is served from, for bundlers that move it. Call it before
 *  anything else; in Node, and where a bundler follows `new URL(..., import.meta.url)`, there is no need.
 *  @example locateWasm('/assets/manifold.wasm') */
export function locateWasm(url: string | URL): void {
  at = String(url);
}

/** Where it was said to be. */
export const located = (): string | undefined => at;
