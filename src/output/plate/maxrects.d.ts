// Node finds nothing in the package by its name: it calls itself a module and offers an older kind of file first. The
// module in it carries no declarations of its own; these are the pieces in use.

declare module 'maxrects-packer/dist/maxrects-packer.mjs' {
  export const PACKING_LOGIC: { readonly MAX_AREA: 0; readonly MAX_EDGE: 1 };
  export class Rectangle {
    constructor(
      width: number,
      height: number,
      x: number,
      y: number,
      rotated: boolean,
      allowRotation: boolean,
    );
    readonly x: number;
    readonly y: number;
    /** Whether it was turned a quarter. */
    readonly rot: boolean;
  }
  export class MaxRectsBin {
    constructor(
      width: number,
      height: number,
      padding: number,
      options: {
        readonly smart: boolean;
        readonly pot: boolean;
        readonly square: boolean;
        readonly logic: 0 | 1;
      },
    );
    /** The same box with its place, or nothing where it has none. */
    add(box: Rectangle): Rectangle | undefined;
  }
}
