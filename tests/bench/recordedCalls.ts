import type { ManifoldToplevel } from '../../src/solid/kernel.ts';

type Call = (known: unknown[]) => unknown;

/** Calls that make geometry, and those that free it; what only looks at it (contours, areas, boxes) is left out. */
const MAKING = new Set([
  ...['slice', 'offset', 'simplify', 'extrude', 'translate', 'transform', 'decompose'],
  ...['union', 'subtract', 'intersect', 'difference', 'intersection', 'add', 'status', 'delete'],
]);

/** Runs `run` once and writes down the geometry it asks Manifold for. What comes back makes the same calls on the same
 *  numbers again, in the same order, and nothing else: the bare cost of that geometry. Solids and sections that `run`
 *  was given from outside must still be alive then; those it makes are freed when it frees its own. */
export function recordedCalls(kernel: ManifoldToplevel, run: () => void): () => void {
  const calls: Call[] = [];
  const numbers = new Map<unknown, number>();
  let depth = 0;

  /** A value as the replay finds it: what was made, by its number; anything else, itself. */
  const bound = (value: unknown): Call => {
    const number = numbers.get(value);
    if (number !== undefined) return (known) => known[number];
    if (!Array.isArray(value) || !value.some((item) => numbers.has(item))) return () => value;
    const items = value.map(bound);
    return (known) => items.map((item) => item(known));
  };
  const name = (made: unknown): number | undefined => {
    if (typeof made !== 'object' || made === null || !('delete' in made)) return undefined;
    numbers.set(made, numbers.size);
    return numbers.size - 1;
  };
  const record = (call: Call, made: unknown): void => {
    const items = Array.isArray(made) ? made.map(name) : undefined;
    const number = items ? undefined : name(made);
    calls.push((known) => {
      const result = call(known);
      if (number !== undefined) known[number] = result;
      items?.forEach((item, k) => {
        if (item !== undefined) known[item] = (result as unknown[])[k];
      });
      return result;
    });
  };

  const undo: (() => void)[] = [];
  const watch = (owner: object, key: string): void => {
    const original = Reflect.getOwnPropertyDescriptor(owner, key);
    if (!original || typeof original.value !== 'function' || !original.writable || !MAKING.has(key)) return;
    const method = original.value as (...args: unknown[]) => unknown;
    const recording = function (this: unknown, ...args: unknown[]): unknown {
      // Vectors that Manifold's own JavaScript passes about share `delete` with what was made.
      const passing = key === 'delete' && !numbers.has(this);
      if (depth > 0 || passing) return Reflect.apply(method, this, args);
      depth++;
      try {
        const [self, given] = [bound(this), args.map(bound)];
        const made = Reflect.apply(method, this, args);
        record(
          (known) =>
            Reflect.apply(
              method,
              self(known),
              given.map((arg) => arg(known)),
            ),
          made,
        );
        return made;
      } finally {
        depth--;
      }
    };
    Reflect.set(owner, key, Object.assign(recording, method));
    undo.push(() => Reflect.set(owner, key, method));
  };
  for (const owner of [kernel.Manifold, kernel.CrossSection]) {
    for (let at: object = owner.prototype; at !== Object.prototype; at = Object.getPrototypeOf(at))
      for (const key of Object.getOwnPropertyNames(at)) watch(at, key);
    for (const key of Object.getOwnPropertyNames(owner)) watch(owner, key);
  }
  const plain = kernel.CrossSection;
  kernel.CrossSection = new Proxy(plain, {
    construct: (_, args) => {
      const again = (): unknown => new plain(...(args as ConstructorParameters<typeof plain>));
      depth++;
      const made = again();
      depth--;
      if (depth === 0) record(again, made);
      return made as object;
    },
  });
  try {
    run();
  } finally {
    kernel.CrossSection = plain;
    for (const put of undo) put();
  }
  return () => {
    const known: unknown[] = [];
    for (const call of calls) call(known);
  };
}
