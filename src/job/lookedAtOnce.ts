/** A look at something that is asked for again and again, taken only once for each `at`: plain data. */
export function lookedAtOnce<A, R>(look: (at: A) => R): (at: A) => R {
  const known = new Map<string, { readonly found: R }>();
  return (at) => {
    const key = JSON.stringify(at);
    const one = known.get(key) ?? { found: look(at) };
    known.set(key, one);
    return one.found;
  };
}
