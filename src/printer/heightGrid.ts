/** Heights of a predicted print lie on a grid of 2^-20 mm, where sums and differences are exact: the top of one block is
 *  the very number its neighbour starts at, and the two join without a gap or a sliver between them.
 *  @example onHeightGrid(0.2) // => 0.20000076293945312 */
export const onHeightGrid = (z: number): number => Math.round(z * 2 ** 20) / 2 ** 20;
