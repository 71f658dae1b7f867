import {
  BufferAttribute,
  BufferGeometry,
  Group,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  type Plane,
} from 'three';
import { inverse, matrix, turn } from '../../src/solid/placement.ts';
import type { Placement, Vec3 } from '../../src/solid/vector.ts';
import type { Colour } from './gapColour.ts';
import { inked, Lines } from './lines.ts';
import { type Linework, outlineFrom } from './linework.ts';

/** How a solid is shown: the part, or a piece of the machine as glass with thin lines. */
export type FigureStyle = 'part' | 'print' | 'machine';

const WIDTHS = { part: 1.7, print: 1.1, machine: 0.9 } as const;

/** One solid in the picture: its surface, its edges, its outline. */
export class SolidFigure {
  readonly group = new Group();
  readonly #lines: Linework;
  readonly #style: FigureStyle;
  readonly #surface: BufferGeometry;
  readonly #skin: MeshLambertMaterial | MeshBasicMaterial;
  readonly #edges: Lines;
  readonly #outline: Lines;
  #placement: Placement | null = null;
  #seenFrom = '';

  constructor(lines: Linework, style: FigureStyle) {
    this.#lines = lines;
    this.#style = style;
    this.#surface = surfaceOf(lines.corners, lines.cornerNormals);
    this.#skin =
      style === 'machine'
        ? new MeshBasicMaterial({ transparent: true, depthWrite: false })
        : new MeshLambertMaterial({ polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 2 });
    this.#edges = new Lines(lines.sharp, WIDTHS[style]);
    this.#outline = new Lines(lines.smooth, style === 'part' ? WIDTHS.part : 1.1);
    const skin = new Mesh(this.#surface, this.#skin);
    // Glass comes last, so that what stands behind it is seen through it.
    skin.renderOrder = style === 'machine' ? 2 : 0;
    this.group.add(skin, this.#edges.object, this.#outline.object);
    this.group.matrixAutoUpdate = false;
  }

  /** Colours of surface and lines. */
  ink(surface: Colour, line: Colour): void {
    const machine = this.#style === 'machine';
    this.#skin.color = inked(surface);
    this.#skin.opacity = machine ? 0.05 : 1;
    this.#edges.ink(line, machine ? 0.55 : this.#style === 'print' ? 0.7 : 1);
    this.#outline.ink(line, machine ? 0.6 : 1);
  }

  /** Where it stands; null takes it out of the picture. */
  place(placement: Placement | null | undefined): void {
    this.group.visible = placement !== null;
    this.#placement = placement ?? null;
    this.group.matrix = placement ? new Matrix4().fromArray([...matrix(placement)]) : new Matrix4();
    this.group.matrixWorldNeedsUpdate = true;
  }

  clip(planes: Plane[] | null): void {
    this.#skin.clippingPlanes = planes;
    this.#edges.clip(planes);
    this.#outline.clip(planes);
  }

  /** Draws the outline as it is out of that direction. */
  seenFrom(toward: Readonly<Vec3>): void {
    const own = this.#placement ? turn(inverse(this.#placement), toward) : toward;
    const key = own.join();
    if (key === this.#seenFrom) return;
    this.#seenFrom = key;
    if (this.#lines.smooth.length > 0)
      this.#outline.changed(outlineFrom(this.#lines, own, this.#outline.room).length);
  }

  size(width: number, height: number): void {
    this.#edges.size(width, height);
    this.#outline.size(width, height);
  }

  dispose(): void {
    this.group.removeFromParent();
    this.#surface.dispose();
    this.#skin.dispose();
    this.#edges.dispose();
    this.#outline.dispose();
  }
}

/** Geometry of loose triangles, nine numbers each. */
export function surfaceOf(corners: Float32Array, normals: Float32Array): BufferGeometry {
  const surface = new BufferGeometry();
  surface.setAttribute('position', new BufferAttribute(corners, 3));
  surface.setAttribute('normal', new BufferAttribute(normals, 3));
  return surface;
}
