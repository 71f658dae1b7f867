import { loadKernel, type ManifoldToplevel } from '../solid/kernel.ts';
import { located } from './locateWasm.ts';

/** The geometry library, loaded when it is first needed. */
export function kernel(): Promise<ManifoldToplevel> {
  const at = located();
  return at === undefined ? loadKernel() : loadKernel(() => at);
}
