/** What stands in a text where a number or word got lost on the way to it. `null` counts where no value can be null. */
export const slipsIn = (
  text: string,
  { nulls = false }: { readonly nulls?: boolean } = {},
): readonly string[] => [
  ...new Set([
    ...(text.match(/\bNaN\b|\bInfinity\b|\bundefined\b|\[object \w+\]/g) ?? []),
    ...(nulls ? (text.match(/\bnull\b/g) ?? []) : []),
  ]),
];

/** Throws where a text has a slip. */
export function mustBeWithoutSlips(
  what: string,
  text: string,
  options: { readonly nulls?: boolean } = {},
): void {
  for (const slip of slipsIn(text, options)) {
    const at = text.search(new RegExp(slip.replace(/[[\]]/g, '\\$&')));
    throw new Error(`${what} says ${slip}: ...${text.slice(Math.max(0, at - 120), at + 80)}...`);
  }
}

/** Throws where anything in a value is NaN; infinite is allowed where a window or a number of degrees of freedom has no end. */
export function mustBeInNumbers(value: unknown, path = ''): void {
  if (typeof value === 'number') {
    if (Number.isNaN(value)) throw new Error(`${path} is NaN`);
    if (!Number.isFinite(value) && !/\.(window\.[01]|dof|limit)$/.test(path))
      throw new Error(`${path} is ${value}`);
    return;
  }
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return;
  for (const [key, inner] of Object.entries(value)) mustBeInNumbers(inner, `${path}.${key}`);
}
