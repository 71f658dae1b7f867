/** A letter, or three numbers with commas between; anything else goes to the schema as it is. */
export function axisTold(axis: string): string | number[] {
  const numbers = axis.split(',').map((part) => Number(part.trim()));
  return numbers.length === 3 && numbers.every(Number.isFinite) ? numbers : axis.trim().toLowerCase();
}
