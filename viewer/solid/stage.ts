import {
  AmbientLight,
  BufferAttribute,
  type BufferGeometry,
  DirectionalLight,
  DoubleSide,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  OrthographicCamera,
  Plane,
  Scene,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { Placement, Vec2, Vec3 } from '../../src/solid/vector.ts';
import { BandedFigure } from './bands/bandedFigure.ts';
import type { ShownBands } from './bands/shownBands.ts';
import type { CutFace, CutPlane } from './cutFace.ts';
import type { Colour } from './gapColour.ts';
import type { Inks } from './inks.ts';
import { inked, Lines } from './lines.ts';
import type { Linework } from './linework.ts';
import { flatNormals } from './linework.ts';
import type { Sight } from './sight.ts';
import { type FigureStyle, SolidFigure, surfaceOf } from './solidFigure.ts';

/** Where a plane cuts, which side stays (`below`: where normal . p is less), and what is cut there. */
export interface StageCut {
  readonly plane: CutPlane;
  readonly below: boolean;
  readonly face: CutFace;
  /** Outlines of the machine in the plane. */
  readonly machine: readonly Float32Array[];
}

const MOST_PIXELS_A_PIXEL = 2;

/** The picture itself: three.js, drawn only when something was changed. Throws `RangeError` where there is no WebGL. */
export class Stage {
  readonly #renderer: WebGLRenderer;
  readonly #scene = new Scene();
  readonly #camera = new OrthographicCamera();
  readonly #lamp = new DirectionalLight(0xffffff, 1.5);
  readonly #machine = new Map<string, SolidFigure>();
  #part: SolidFigure | null = null;
  #model: BandedFigure | null = null;
  #gaps: Mesh<BufferGeometry, MeshLambertMaterial> | null = null;
  #cut: { readonly parts: readonly { dispose(): void }[]; readonly planes: Plane[] } | null = null;
  #inks: Inks;
  #size: Vec2 = [1, 1];
  #sight: Sight | null = null;
  #asked = 0;
  #plain = false;

  constructor(canvas: HTMLCanvasElement, inks: Inks) {
    const manner = { antialias: true, alpha: true, depth: true, stencil: false };
    // Asked for here, because three writes faults to the console where there is none.
    const context = canvas.getContext('webgl2', manner) as WebGL2RenderingContext | null;
    if (!context) throw new RangeError('Stage requires a browser with WebGL 2');
    this.#renderer = new WebGLRenderer({ canvas, context, ...manner });
    this.#renderer.localClippingEnabled = true;
    this.#inks = inks;
    this.#scene.add(new AmbientLight(0xffffff, 2.1), this.#lamp, this.#lamp.target);
    this.#scene.matrixAutoUpdate = false;
  }

  /** The part, and its surface in the colours of its gaps where there are any: three numbers a corner. */
  showPart(
    lines: Linework,
    style: FigureStyle,
    gaps: { readonly corners: Float32Array; readonly colours: Float32Array } | null,
  ): void {
    this.#part?.dispose();
    this.#part = new SolidFigure(lines, style);
    this.#scene.add(this.#part.group);
    this.#dropGaps();
    this.#plain = gaps !== null;
    if (gaps) {
      const surface = surfaceOf(gaps.corners, flatNormals(gaps.corners));
      surface.setAttribute('color', new BufferAttribute(gaps.colours, 3));
      const skin = new MeshLambertMaterial({
        vertexColors: true,
        // Over the part's own surface, under its lines.
        ...{ polygonOffset: true, polygonOffsetFactor: 0.5, polygonOffsetUnits: 1 },
      });
      this.#gaps = new Mesh(surface, skin);
      this.#gaps.renderOrder = 1;
      this.#scene.add(this.#gaps);
    }
    this.#redress();
  }

  /** A model with its stretches, in place of the part; null for the part again. */
  showModel(model: { readonly lines: Linework; readonly axis: Readonly<Vec3> } | null): void {
    this.#model?.dispose();
    this.#model = model && new BandedFigure(model.lines, model.axis);
    if (this.#model) this.#scene.add(this.#model.group);
    this.#redress();
  }

  showBands(bands: ShownBands): void {
    this.#model?.show(bands);
    this.draw();
  }

  /** Colours of the gaps in another pose. */
  colourGaps(colours: Float32Array): void {
    if (!this.#gaps) return;
    this.#gaps.geometry.setAttribute('color', new BufferAttribute(colours, 3));
    this.draw();
  }

  showMachine(pieces: readonly { readonly id: string; readonly lines: Linework }[]): void {
    for (const figure of this.#machine.values()) figure.dispose();
    this.#machine.clear();
    for (const { id, lines } of pieces) {
      const figure = new SolidFigure(lines, 'machine');
      this.#machine.set(id, figure);
      this.#scene.add(figure.group);
    }
    this.#redress();
  }

  /** Where the machine stands; pieces not named stand as they were built. */
  placeMachine(placements: Readonly<Record<string, Placement | null>> | null): void {
    for (const [id, figure] of this.#machine) figure.place(placements === null ? null : placements[id]);
    this.draw();
  }

  cut(cut: StageCut | null): void {
    for (const piece of this.#cut?.parts ?? []) piece.dispose();
    this.#cut = cut && this.#cutPieces(cut);
    this.#redress();
  }

  dress(inks: Inks): void {
    this.#inks = inks;
    this.#redress();
  }

  size(width: number, height: number): void {
    this.#size = [width, height];
    this.#renderer.setPixelRatio(Math.min(devicePixelRatio, MOST_PIXELS_A_PIXEL));
    this.#renderer.setSize(width, height, false);
    this.#redress();
  }

  look(sight: Sight): void {
    this.#sight = sight;
    this.draw();
  }

  /** Draws before the browser paints next; asked for several times, once. */
  draw(): void {
    if (this.#asked !== 0) return;
    this.#asked = requestAnimationFrame(() => {
      this.#asked = 0;
      this.#render();
    });
  }

  dispose(): void {
    cancelAnimationFrame(this.#asked);
    this.cut(null);
    cancelAnimationFrame(this.#asked);
    this.#part?.dispose();
    this.#model?.dispose();
    this.#dropGaps();
    for (const figure of this.#machine.values()) figure.dispose();
    this.#renderer.dispose();
  }

  #dropGaps(): void {
    this.#gaps?.removeFromParent();
    this.#gaps?.geometry.dispose();
    this.#gaps?.material.dispose();
    this.#gaps = null;
  }

  #redress(): void {
    const { part, plain, line, faint } = this.#inks;
    const planes = this.#cut?.planes ?? null;
    this.#part?.ink(this.#plain ? plain : part, line);
    this.#part?.clip(planes);
    this.#part?.size(...this.#size);
    this.#model?.ink(this.#inks, this.#renderer.getPixelRatio());
    this.#model?.size(...this.#size);
    if (this.#gaps) {
      this.#gaps.visible = this.#model === null;
      this.#gaps.material.clippingPlanes = planes;
    }
    if (this.#part) this.#part.group.visible = this.#model === null;
    for (const figure of this.#machine.values()) {
      figure.ink(line, faint);
      figure.clip(planes);
      figure.size(...this.#size);
    }
    this.draw();
  }

  #cutPieces({ plane: { normal, level }, below, face, machine }: StageCut) {
    const sense = below ? -1 : 1;
    const plane = new Plane(
      new Vector3(sense * normal[0], sense * normal[1], sense * normal[2]),
      -sense * level,
    );
    const skin = new MeshBasicMaterial({
      ...{ color: inked(this.#inks.cut), side: DoubleSide },
      ...{ polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 2 },
    });
    const fill = surfaceOf(face.fill, new Float32Array(face.fill.length));
    const cap = new Mesh(fill, skin);
    this.#scene.add(cap);
    const drawn = (lines: Float32Array, width: number, colour: Colour, opacity = 1) => {
      const one = new Lines(lines, width);
      one.ink(colour, opacity);
      one.size(...this.#size);
      this.#scene.add(one.object);
      return one;
    };
    return {
      planes: [plane],
      parts: [
        {
          dispose: () => {
            cap.removeFromParent();
            fill.dispose();
            skin.dispose();
          },
        },
        drawn(face.outline, 2.2, this.#inks.line),
        drawn(face.hatching, 0.9, this.#inks.line, 0.55),
        ...machine.map((outline) => drawn(outline, 1.1, this.#inks.faint)),
      ],
    };
  }

  #render(): void {
    if (!this.#sight || this.#size[0] < 2) return;
    const { view, target, scale } = this.#sight;
    const [width, height] = this.#size;
    const camera = this.#camera;
    [camera.left, camera.right] = [-width / 2 / scale, width / 2 / scale];
    [camera.bottom, camera.top] = [-height / 2 / scale, height / 2 / scale];
    // Deep enough for any machine around a part of this size.
    const deep = Math.max(400, 40 * (camera.right + camera.top));
    [camera.near, camera.far] = [-deep, deep];
    const { right, up, toward } = view;
    camera.matrixAutoUpdate = false;
    camera.matrix = new Matrix4().set(
      ...[right[0], up[0], toward[0], target[0]],
      ...[right[1], up[1], toward[1], target[1]],
      ...[right[2], up[2], toward[2], target[2]],
      ...([0, 0, 0, 1] as const),
    );
    camera.matrixWorldNeedsUpdate = true;
    camera.updateMatrixWorld(true);
    camera.updateProjectionMatrix();
    // The lamp stands over the reader's left shoulder, wherever they look from.
    const lamp = (k: 0 | 1 | 2): number => toward[k] + 0.7 * up[k] - 0.5 * right[k];
    this.#lamp.position.set(lamp(0), lamp(1), lamp(2));
    for (const figure of [this.#part, ...this.#machine.values()]) figure?.seenFrom(toward);
    this.#model?.seenFrom(toward);
    this.#renderer.render(this.#scene, camera);
  }
}

/** Colours of gap corners as three wants them, from colours as the page has them. */
export const linear = (value: number): number =>
  value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
