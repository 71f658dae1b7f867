import { Group, Mesh, MeshLambertMaterial, type Vector3 } from 'three';
import type { LevelMap } from '../../../src/donor/respace/levelMap.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';
import type { Inks } from '../inks.ts';
import { inked, Lines } from '../lines.ts';
import { type Linework, outlineFrom } from '../linework.ts';
import { surfaceOf } from '../solidFigure.ts';
import { banded, bandUniforms, MOST_BANDS } from './bandShader.ts';
import { shiftedInto } from './shiftedLines.ts';
import type { ShownBands } from './shownBands.ts';

/** A model in the picture with bands on its surface, which moves as its stretches are pulled. */
export class BandedFigure {
  readonly group = new Group();
  readonly #lines: Linework;
  readonly #axis: Readonly<Vec3>;
  readonly #skin = new MeshLambertMaterial({
    ...{ polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 2 },
  });
  readonly #uniforms = bandUniforms();
  readonly #surface;
  readonly #edges: Lines;
  readonly #outline: Lines;
  #map: LevelMap | undefined;
  #toward: Readonly<Vec3> = [Number.NaN, 0, 0];

  constructor(lines: Linework, axis: Readonly<Vec3>) {
    this.#lines = lines;
    this.#axis = axis;
    this.#uniforms.bandAxis.value.set(...axis);
    banded(this.#skin, this.#uniforms);
    this.#surface = surfaceOf(lines.corners, lines.cornerNormals);
    const skin = new Mesh(this.#surface, this.#skin);
    // It moves farther than its box says.
    skin.frustumCulled = false;
    this.#edges = new Lines(lines.sharp, 1.7);
    this.#outline = new Lines(lines.smooth, 1.7);
    this.group.add(skin, this.#edges.object, this.#outline.object);
  }

  /** Shows these bands, and the model moved as they are. */
  show({ bands, takeUps, map }: ShownBands): void {
    const { bandCount, bandEnds, bandManner, takeUps: told, takeUpStays } = this.#uniforms;
    const shown = bands.slice(0, MOST_BANDS);
    bandCount.value = shown.length;
    shown.forEach(({ from, to, tint, isChanged, spoils, isAt, index }, k) => {
      bandEnds.value[k]!.set(from, to);
      bandManner.value[k] =
        tint + 2 * Number(isChanged) + 4 * Number(spoils) + 8 * Number(isAt) + 16 * Number(index === null);
    });
    told.value.forEach((one, k) => {
      const { from, to, by } = takeUps[k] ?? { from: 0, to: 1, by: 0 };
      one.set(from, to, by);
    });
    // What lies below all take-ups moves by this with their map, and by nothing with their sum.
    takeUpStays.value = map ? -map.shift(-Infinity) : 0;
    const isMoved = map !== undefined || this.#map !== undefined;
    this.#map = map;
    if (!isMoved || this.#lines.sharp.length === 0) return;
    this.#edges.room.set(this.#lines.sharp);
    shiftedInto(this.#edges.room, this.#axis, map);
    this.#edges.changed(this.#lines.sharp.length);
    this.#drawOutline();
  }

  ink({ part, line, bandOne, bandTwo, mind, accent }: Inks, dots: number): void {
    const set = (to: { readonly value: Vector3 }, colour: Parameters<typeof inked>[0]): void => {
      const { r, g, b } = inked(colour);
      to.value.set(r, g, b);
    };
    this.#skin.color = inked(part);
    const { bandOne: one, bandTwo: two, bandLine, bandMind, bandAt } = this.#uniforms;
    set(one, bandOne);
    set(two, bandTwo);
    set(bandLine, line);
    set(bandMind, mind);
    set(bandAt, accent);
    this.#uniforms.dots.value = dots;
    this.#edges.ink(line);
    this.#outline.ink(line);
  }

  seenFrom(toward: Readonly<Vec3>): void {
    if (toward.every((x, k) => x === this.#toward[k])) return;
    this.#toward = [...toward] as Vec3;
    this.#drawOutline();
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

  #drawOutline(): void {
    if (this.#lines.smooth.length === 0) return;
    const drawn = outlineFrom(this.#lines, this.#toward, this.#outline.room);
    shiftedInto(drawn, this.#axis, this.#map);
    this.#outline.changed(drawn.length);
  }
}
