import type { ManifoldToplevel } from '../../src/solid/kernel.ts';

interface Handle {
  isDeleted(): boolean;
}

const isHandle = (value: unknown): value is Handle =>
  typeof value === 'object' && value !== null && 'isDeleted' in value;

/** Solids and sections that `run` had Manifold make, and how many of them nobody freed: whatever its methods, static
 *  functions and constructors hand out is looked at when `run` is over. */
export function handlesLeft(kernel: ManifoldToplevel, run: () => void): { made: number; left: number } {
  const made = new Set<Handle>();
  const see = (value: unknown): void => {
    for (const one of Array.isArray(value) ? value : [value]) if (isHandle(one)) made.add(one);
  };
  const undo: (() => void)[] = [];
  const watch = (owner: object, key: string): void => {
    const original = Reflect.getOwnPropertyDescriptor(owner, key);
    if (!original || typeof original.value !== 'function' || !original.writable || key === 'constructor')
      return;
    const method = original.value as (...args: unknown[]) => unknown;
    const seen = function (this: unknown, ...args: unknown[]): unknown {
      const result = Reflect.apply(method, this, args);
      see(result);
      return result;
    };
    Reflect.set(owner, key, Object.assign(seen, method));
    undo.push(() => Reflect.set(owner, key, method));
  };
  for (const owner of [kernel.Manifold, kernel.CrossSection]) {
    for (let at: object = owner.prototype; at !== Object.prototype; at = Object.getPrototypeOf(at))
      for (const key of Object.getOwnPropertyNames(at)) watch(at, key);
    for (const key of Object.getOwnPropertyNames(owner)) if (key !== 'prototype') watch(owner, key);
  }
  const plain = kernel.CrossSection;
  kernel.CrossSection = new Proxy(plain, {
    construct: (target, args) => {
      const result = Reflect.construct(target, args) as object;
      see(result);
      return result;
    },
  });
  try {
    run();
  } finally {
    kernel.CrossSection = plain;
    for (const put of undo) put();
  }
  return { made: made.size, left: [...made].filter((handle) => !handle.isDeleted()).length };
}
