/** In which form a file of readings is: CSV unless its name, or its first sign where the name says nothing, says JSON.
 *  @example readingsKind('read.txt', '{"readings": {}}') // => 'json' */
export const readingsKind = (name: string, text: string): 'csv' | 'json' =>
  /\.json$/i.test(name) || (!/\.[ct]sv$/i.test(name) && /^\s*[{[]/.test(text)) ? 'json' : 'csv';
