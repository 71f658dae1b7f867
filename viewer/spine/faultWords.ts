/** What broke in the worker, as the end of the sentence "The reckoning stopped: ...". */
export function faultWords(fault: unknown): string {
  const { name, message } = fault instanceof Error ? fault : { name: '', message: String(fault) };
  const said = shortened(message);
  const because = (words: string) => (said === '' ? words : `${words} (${said})`);
  if (/memory|allocation|call stack/i.test(message))
    return because('the memory of this browser did not suffice');
  if (/networkerror|import|fetch|failed to load/i.test(message))
    return 'a piece of the page could not be fetched';
  if (/wasm|webassembly/i.test(message) || name === 'CompileError' || name === 'LinkError')
    return because('this browser could not start the geometry');
  if (name === 'RuntimeError') return because('the geometry met a fault');
  return said === '' ? 'a fault without a name' : said;
}

/** The first sentence of what a browser says, without addresses. */
function shortened(message: string): string {
  const plain = message.replace(/\b(?:https?|file|blob):\S+/g, '').replace(/\s+/g, ' ');
  const [first = ''] = plain.trim().split(/\.(?:\s|$)/, 1);
  return first.length <= 120 ? first : `${first.slice(0, 117)}...`;
}
