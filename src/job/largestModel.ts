/** Largest model taken, bytes: two million triangles in binary STL, more than any printable part needs. */
export const LARGEST_MODEL = 128 * 1024 * 1024;
