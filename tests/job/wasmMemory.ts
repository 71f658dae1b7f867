/** Size of the memory of the wasm library that is loaded next, bytes. The library keeps its memory to itself, so the
 *  instance is caught on its way in. Call before the kernel is loaded. */
export function watchMemory(): () => number {
  const instantiate = WebAssembly.instantiate;
  let memory: WebAssembly.Memory | undefined;
  WebAssembly.instantiate = (async (...args: Parameters<typeof instantiate>) => {
    const made: unknown = await Reflect.apply(instantiate, WebAssembly, args);
    const instance = made instanceof WebAssembly.Instance ? made : Reflect.get(made as object, 'instance');
    for (const value of Object.values((instance as WebAssembly.Instance).exports))
      if (value instanceof WebAssembly.Memory) memory = value;
    return made;
  }) as typeof instantiate;
  return () => {
    if (memory === undefined) throw new RangeError('watchMemory requires a wasm library loaded after it');
    return memory.buffer.byteLength;
  };
}
