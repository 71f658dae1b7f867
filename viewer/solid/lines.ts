import { Color, type Plane, SRGBColorSpace } from 'three';
import { LineMaterial } from 'three/examples/jsm/lines/LineMaterial.js';
import { LineSegments2 } from 'three/examples/jsm/lines/LineSegments2.js';
import { LineSegmentsGeometry } from 'three/examples/jsm/lines/LineSegmentsGeometry.js';
import type { Colour } from './gapColour.ts';

/** Straight lines of a width in pixels, six numbers each. */
export class Lines {
  readonly object: LineSegments2;
  readonly #geometry = new LineSegmentsGeometry();
  readonly #material: LineMaterial;
  #room: Float32Array | null = null;

  /** `room`: where there will be as many lines at most, and they change with every picture. */
  constructor(lines: Float32Array, width: number) {
    this.#material = new LineMaterial({ linewidth: width });
    // An empty buffer is nothing that can be drawn.
    this.#geometry.setPositions(lines.length > 0 ? lines.slice() : new Float32Array(6));
    this.object = new LineSegments2(this.#geometry, this.#material);
    this.object.frustumCulled = false;
    if (lines.length === 0) this.#geometry.instanceCount = 0;
  }

  /** Memory for lines that change, as many as it was made with. */
  get room(): Float32Array {
    const start = this.#geometry.getAttribute('instanceStart') as unknown as {
      data: { array: Float32Array };
    };
    this.#room ??= start.data.array;
    return this.#room;
  }

  /** Says how many of the numbers in `room` are to be drawn. */
  changed(length: number): void {
    const start = this.#geometry.getAttribute('instanceStart') as unknown as {
      data: { needsUpdate: boolean };
    };
    start.data.needsUpdate = true;
    this.#geometry.instanceCount = length / 6;
  }

  ink(colour: Colour, opacity = 1): void {
    this.#material.color = inked(colour);
    this.#material.opacity = opacity;
    this.#material.transparent = opacity < 1;
  }

  clip(planes: Plane[] | null): void {
    this.#material.clippingPlanes = planes;
  }

  size(width: number, height: number): void {
    this.#material.resolution.set(width, height);
  }

  dispose(): void {
    this.object.removeFromParent();
    this.#geometry.dispose();
    this.#material.dispose();
  }
}

/** A colour of the page for three. */
export const inked = ([red, green, blue]: Colour): Color =>
  new Color().setRGB(red, green, blue, SRGBColorSpace);
