import type { Vec2 } from '../../solid/vector.ts';

/** The box around what was laid out so far, mm; empty at first. */
export class UsedBox {
  #from: Vec2 = [Infinity, Infinity];
  #to: Vec2 = [-Infinity, -Infinity];

  add([x, y]: Readonly<Vec2>, [width, depth]: Readonly<Vec2>): void {
    this.#from = [Math.min(this.#from[0], x), Math.min(this.#from[1], y)];
    this.#to = [Math.max(this.#to[0], x + width), Math.max(this.#to[1], y + depth)];
  }

  /** Its area once another box is in it, mm^2. */
  areaWith([x, y]: Readonly<Vec2>, [width, depth]: Readonly<Vec2>): number {
    const [from, to] = [this.#from, this.#to];
    return (
      (Math.max(to[0], x + width) - Math.min(from[0], x)) *
      (Math.max(to[1], y + depth) - Math.min(from[1], y))
    );
  }
}
