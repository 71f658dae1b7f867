// three.js reads 3MF with the document model of a browser; xmldom has it but for selectors, of which it needs the plainest.
import { DOMParser, type Document, type Element } from '@xmldom/xmldom';
import type { Mesh as ThreeMesh } from 'three';
import { ThreeMFLoader } from 'three/examples/jsm/loaders/3MFLoader.js';

type Node = Document | Element;

/** Descendants by name, or `outer inner`. */
function selected(this: Node, selector: string): Element[] {
  const [name, ...outer] = selector.split(' ').reverse();
  return [...this.getElementsByTagName(name!)].filter((element) => {
    let above = element.parentNode;
    for (const each of outer) {
      while (above && above !== this && above.nodeName !== each) above = above.parentNode;
      if (!above || above.nodeName !== each) return false;
    }
    return true;
  });
}

const selectors = {
  querySelectorAll: selected,
  querySelector(this: Node, selector: string): Element | null {
    return selected.call(this, selector)[0] ?? null;
  },
};
const blank = new DOMParser().parseFromString('<a/>', 'text/xml');
for (const node of [blank, blank.documentElement!])
  Object.assign(Object.getPrototypeOf(node) as object, selectors);

/** What three.js finds of a build item. */
export interface ThreeItem {
  readonly name: string;
  readonly material: string;
  /** Nine numbers a triangle, in the place of the item. */
  readonly corners: Float64Array;
}

/** The items of a 3MF as three.js places them. */
export function readThreeMf(file: Uint8Array): readonly ThreeItem[] {
  const before = Reflect.get(globalThis, 'DOMParser') as unknown;
  Reflect.set(globalThis, 'DOMParser', DOMParser);
  try {
    // A copy: a Buffer, which `slice` would not copy, may lie in the middle of a pool of others.
    const group = new ThreeMFLoader().parse(Uint8Array.from(file).buffer);
    return group.children.map((child) => {
      child.updateMatrixWorld(true);
      const [mesh] = child.children as ThreeMesh[];
      const position = mesh!.geometry.getAttribute('position');
      const index = mesh!.geometry.getIndex();
      const m = mesh!.matrixWorld.elements;
      const count = index ? index.count : position.count;
      const corners = new Float64Array(3 * count);
      for (let k = 0; k < count; k++) {
        const v = index ? index.getX(k) : k;
        const [x, y, z] = [position.getX(v), position.getY(v), position.getZ(v)];
        for (let axis = 0; axis < 3; axis++)
          corners[3 * k + axis] = m[axis]! * x + m[axis + 4]! * y + m[axis + 8]! * z + m[axis + 12]!;
      }
      const material = mesh!.material as { readonly name: string };
      return { name: child.name || mesh!.name, material: material.name, corners };
    });
  } finally {
    Reflect.set(globalThis, 'DOMParser', before);
  }
}
