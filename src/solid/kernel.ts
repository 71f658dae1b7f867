import Module, { type CrossSection, type Manifold, type ManifoldToplevel, type Mesh } from 'manifold-3d';
import { freeVectors } from './freedVectors.ts';

export type { CrossSection, Manifold, ManifoldToplevel, Mesh };

let loading: Promise<ManifoldToplevel> | undefined;

/** The Manifold library, loaded once. `locate` says where the wasm lies when the bundler moved it. */
export function loadKernel(locate?: () => string): Promise<ManifoldToplevel> {
  loading ??= Module(locate ? { locateFile: locate } : undefined).then((kernel) => {
    kernel.setup();
    freeVectors(kernel);
    return kernel;
  });
  return loading;
}

interface Handle {
  delete(): void;
}

/** Owner of wasm handles: whatever passes through `keep` is freed when the scope closes.
 *  Memory behind a handle is invisible to the garbage collector, so every handle belongs to a scope. */
export class Scope {
  readonly kernel: ManifoldToplevel;
  readonly #handles: Handle[] = [];

  constructor(kernel: ManifoldToplevel) {
    this.kernel = kernel;
  }

  /** Takes ownership and hands the same thing back, so that calls can be chained. */
  keep<T extends Handle>(handle: T): T {
    this.#handles.push(handle);
    return handle;
  }

  /** Takes ownership of each. */
  keepAll<T extends Handle>(handles: readonly T[]): readonly T[] {
    for (const handle of handles) this.keep(handle);
    return handles;
  }

  /** Frees everything kept, in reverse order. The scope may be used again afterwards. */
  close(): void {
    for (let handle = this.#handles.pop(); handle !== undefined; handle = this.#handles.pop())
      handle.delete();
  }
}

/** Runs `work` with a scope that is closed however it ends. Nothing kept in it may be returned. */
export function withScope<T>(kernel: ManifoldToplevel, work: (scope: Scope) => T): T {
  const scope = new Scope(kernel);
  try {
    return work(scope);
  } finally {
    scope.close();
  }
}
