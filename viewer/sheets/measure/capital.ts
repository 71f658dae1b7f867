/** A name at the head of a line. @example capital('bar diameter') // => 'Bar diameter' */
export const capital = (name: string): string => `${name.slice(0, 1).toUpperCase()}${name.slice(1)}`;
