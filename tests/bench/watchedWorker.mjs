// The worker as built, telling with each job how much wasm memory and heap its thread holds, bytes.
const instantiate = WebAssembly.instantiate;
let memory;
WebAssembly.instantiate = async (...args) => {
  const made = await Reflect.apply(instantiate, WebAssembly, args);
  const { exports } = made instanceof WebAssembly.Instance ? made : made.instance;
  memory = Object.values(exports).find((value) => value instanceof WebAssembly.Memory) ?? memory;
  return made;
};
const { default: work } = await import('../../dist/bin/worker.js');

export default async (task) => {
  const answer = await work(task);
  globalThis.gc?.();
  return { ...answer, wasm: memory?.buffer.byteLength ?? 0, heap: process.memoryUsage().heapUsed };
};
