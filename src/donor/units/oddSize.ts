import { formatLength } from '../../units/index.ts';

/** Longest extents of what is printed at a bench, mm; common practice, no source. */
const PRINTED = { least: 1, most: 1000 } as const;

/** What is odd about the size that a model has in its unit, where nobody would print it; `longest` extent, mm. The guess of a
 *  unit only weighs units against each other, and says nothing of whether any of them makes sense. */
export function oddSize(longest: number): string | undefined {
  if (longest >= PRINTED.least && longest <= PRINTED.most) return undefined;
  const size =
    longest < PRINTED.least
      ? `shorter than ${formatLength(PRINTED.least)}`
      : `longer than ${formatLength(PRINTED.most)}`;
  return `${size}, unlike a part: look whether its numbers are in that unit`;
}
