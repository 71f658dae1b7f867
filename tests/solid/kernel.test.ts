import { describe, expect, it } from 'vitest';
import { loadKernel, withScope } from '../../src/solid/kernel.ts';

describe('a fault within the geometry library', () => {
  const broken = async (fault: unknown): Promise<{ readonly anew: boolean; readonly volume: number }> => {
    const kernel = await loadKernel();
    const failing = () =>
      withScope(kernel, (scope) => {
        scope.keep(kernel.Manifold.cube(1));
        throw fault;
      });
    expect(failing).toThrow();
    const next = await loadKernel();
    const volume = withScope(next, (scope) => scope.keep(next.Manifold.cube([1, 2, 3])).volume());
    return { anew: next !== kernel, volume };
  };

  it.each([
    ['a trap of wasm', new WebAssembly.RuntimeError('memory access out of bounds')],
    ['an exception of C++', 171664],
  ])('is not met again by whoever comes next: %s', async (_, fault) => {
    expect(await broken(fault)).toEqual({ anew: true, volume: 6 });
  });

  it('is told from faults of others, after which the library goes on', async () => {
    expect(await broken(new RangeError('a refusal'))).toEqual({ anew: false, volume: 6 });
  });

  it('keeps hold of nothing that would be freed in broken memory', async () => {
    const kernel = await loadKernel();
    let freed = 0;
    const deleting = (fault: unknown) => () =>
      withScope(kernel, (scope) => {
        scope.keep({ delete: () => void freed++ });
        throw fault;
      });
    expect(deleting(new Error('a refusal'))).toThrow();
    expect(freed).toBe(1);
    expect(deleting(new WebAssembly.RuntimeError('unreachable'))).toThrow();
    expect(freed).toBe(1);
  });
});
