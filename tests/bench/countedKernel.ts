import type { ManifoldToplevel } from '../../src/solid/kernel.ts';

/** Time spent inside Manifold, ms, while `run` runs: every method of its solids and sections is timed from outside,
 *  constructors and static functions too. Calls made by Manifold's own JavaScript inside another call count once. */
export function timeInside(
  kernel: ManifoldToplevel,
  run: () => void,
): { total: number; inside: number; calls: number } {
  let inside = 0;
  let calls = 0;
  let depth = 0;
  const undo: (() => void)[] = [];
  const watch = (owner: object, name: string): void => {
    const original = Reflect.getOwnPropertyDescriptor(owner, name);
    if (!original || typeof original.value !== 'function' || !original.writable) return;
    const method = original.value as (...args: unknown[]) => unknown;
    const timed = function (this: unknown, ...args: unknown[]): unknown {
      if (depth > 0) return Reflect.apply(method, this, args);
      depth++;
      calls++;
      const start = performance.now();
      try {
        return new.target ? Reflect.construct(method, args, new.target) : Reflect.apply(method, this, args);
      } finally {
        inside += performance.now() - start;
        depth--;
      }
    };
    Reflect.set(owner, name, Object.assign(timed, method));
    undo.push(() => Reflect.set(owner, name, method));
  };
  // Manifold's JavaScript puts classes of its own in front of the bound ones, so methods lie along a chain.
  for (const owner of [kernel.Manifold, kernel.CrossSection]) {
    for (let at: object = owner.prototype; at !== Object.prototype; at = Object.getPrototypeOf(at)) {
      for (const name of Object.getOwnPropertyNames(at)) if (name !== 'constructor') watch(at, name);
    }
    for (const name of Object.getOwnPropertyNames(owner)) if (name !== 'prototype') watch(owner, name);
  }
  const start = performance.now();
  try {
    run();
  } finally {
    for (const put of undo) put();
  }
  return { total: performance.now() - start, inside, calls };
}
