/** The list kept under a key, begun when it is asked for the first time. */
export function listAt<K, V>(lists: Map<K, V[]>, key: K): V[] {
  let list = lists.get(key);
  if (list === undefined) {
    list = [];
    lists.set(key, list);
  }
  return list;
}
