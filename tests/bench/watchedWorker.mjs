// The worker as built, telling with each job how much wasm memory its thread holds, bytes.
const instantiate = WebAssembly.instantiate;
let memory;
WebAssembly.instantiate = async (...args) => {
  const made = await Reflect.apply(instantiate, WebAssembly, args);
  const { exports } = made instanceof WebAssembly.Instance ? made : made.instance;
  memory = Object.values(exports).find((value) => value instanceof WebAssembly.Memory) ?? memory;
  return made;
};
const { default: work } = await import('../../dist/bin/worker.js');

export default async (task) => ({ ...(await work(task)), wasm: memory?.buffer.byteLength ?? 0 });
