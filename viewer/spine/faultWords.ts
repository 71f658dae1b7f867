/** What broke in the worker, as the end of the sentence "The reckoning stopped: ...". */
export function faultWords(fault: unknown): string {
  const { name, message } = fault instanceof Error ? fault : { name: '', message: String(fault) };
  const said = message.replace(/\s+/g, ' ').trim().slice(0, 200);
  const because = (words: string) => (said === '' ? words : `${words} (${said})`);
  if (/memory|allocation|call stack/i.test(message))
    return because('the memory of this browser did not suffice');
  if (/wasm|webassembly/i.test(message) || name === 'CompileError' || name === 'LinkError')
    return because('this browser could not start the geometry');
  if (name === 'RuntimeError') return because('the geometry met a fault');
  if (/import|fetch|network|load/i.test(message)) return because('a piece of the page could not be fetched');
  return said === '' ? 'a fault without a name' : said;
}
