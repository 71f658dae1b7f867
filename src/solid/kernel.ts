import Module, { type CrossSection, type Manifold, type ManifoldToplevel, type Mesh } from 'manifold-3d';
import { freeVectors } from './freedVectors.ts';

export type { CrossSection, Manifold, ManifoldToplevel, Mesh };

let loading: Promise<ManifoldToplevel> | undefined;

/** The Manifold library, loaded once, and again after a fault in it. `locate` says where the wasm lies when the bundler moved it. */
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

/** Runs `work` with a scope that is closed however it ends. Nothing kept in it may be returned.
 *
 *  A fault within the library may have left its memory in any state. Nothing is freed there then, and the next
 *  `loadKernel` loads another library, so that whoever goes on after a fault is not met by it again and again. */
export function withScope<T>(kernel: ManifoldToplevel, work: (scope: Scope) => T): T {
  const scope = new Scope(kernel);
  let isLost = false;
  try {
    return work(scope);
  } catch (error) {
    isLost = isKernelFault(error);
    if (isLost) loading = undefined;
    throw error;
  } finally {
    if (!isLost) scope.close();
  }
}

/** Whether an error comes from within the library: a trap of wasm, or an exception of C++, which is a bare number. */
const isKernelFault = (error: unknown): boolean =>
  typeof error === 'number' || error instanceof WebAssembly.RuntimeError;
