import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { ScenePart } from '../../src/job/scene.ts';
import type { Frame, PartInTheRound, Play } from '../../src/job/solidView.ts';
import type { View } from '../../src/output/drawing/index.ts';
import type { Mesh } from '../../src/solid/mesh.ts';
import { MeshIndex } from '../../src/solid/meshIndex.ts';
import { identity, inverse, place, turn } from '../../src/solid/placement.ts';
import { add, dot, type Placement, type Vec2, type Vec3 } from '../../src/solid/vector.ts';
import type { Bench } from '../bench/bench.ts';
import type { RefitDesk } from '../donor/refitDesk.ts';
import type { ShownModel } from '../spine/answers.ts';
import { type ShownBands, shownBands } from './bands/shownBands.ts';
import { bestSight, type Camera, home, lookingFrom, targetOf, viewOfCamera } from './camera.ts';
import type { CutPlane } from './cutFace.ts';
import { type Linework, lineworkOf } from './linework.ts';
import type { PrintSource } from './printSource.ts';
import type { Sight } from './sight.ts';
import { type Spot, spotsOf } from './spots.ts';

/** What is shown of the part: as drawn, as it is expected off the printer, or that with its gaps to the machine in colour. */
export const manners = ['drawn', 'print', 'gaps'] as const;
export type Manner = (typeof manners)[number];

/** Nothing cut away, cut across an axis of the part, or built up layer by layer. */
export const cuts = ['whole', 'x', 'y', 'z', 'layers'] as const;
export type Cut = (typeof cuts)[number];

/** The part as the picture shows it now. */
export interface ShownPart {
  readonly scene: ScenePart;
  /** Null until it is worked out. */
  readonly round: PartInTheRound | null;
  readonly mesh: Mesh;
  /** What of the manners it is in truth: a print that is not worked out yet is shown as drawn. */
  readonly manner: Manner;
}

/** A cut as a plane, and the half that stays. */
export interface ShownCut extends CutPlane {
  readonly below: boolean;
}

/** The box around a part, frame of the part, mm. */
export interface Bounds {
  readonly low: Vec3;
  readonly high: Vec3;
  readonly middle: Vec3;
  /** Half its diagonal. */
  readonly radius: number;
}

/** Of a desk what the picture shows. */
export type ModelDesk = Pick<RefitDesk, 'sheet' | 'draft' | 'at' | 'lit'>;

/** Larger meshes are not searched for what hides what: typing would wait for it. */
const MOST_SEARCHED = 120_000;

/** What the person set about the picture, and what follows from it and the job. */
export class SolidState {
  readonly camera: Signal<Camera> = signal(home);
  readonly manner: Signal<Manner> = signal('gaps');
  readonly cut: Signal<Cut> = signal('whole');
  /** How far along the cut stands, 0 to 1. */
  readonly share: Signal<number> = signal(0.5);
  /** Id of the play that is shown, and which of its pictures; empty: the machine at rest. */
  readonly play: Signal<{ readonly id: string; readonly frame: number }> = signal({ id: '', frame: 0 });
  readonly machine: Signal<boolean> = signal(true);
  readonly balloons: Signal<boolean> = signal(true);
  /** Size of the picture, pixels. */
  readonly size: Signal<Vec2> = signal([0, 0]);
  /** Where a mouse points at the picture, pixels from its top left; null away from it. */
  readonly pointer: Signal<Vec2 | null> = signal(null);
  /** Whether a model at hand is shown with its stretches, in place of the part that is made of it. */
  readonly stretches: Signal<boolean> = signal(true);
  /** Whether the browser shows solids. */
  readonly solids: Signal<boolean> = signal(true);
  readonly #member: Signal<string> = signal('');

  /** The model whose stretches are shown; null while the part is. */
  readonly model: ReadonlySignal<ShownModel | null>;
  readonly bands: ReadonlySignal<ShownBands | null>;
  readonly part: ReadonlySignal<ShownPart | null>;
  /** Whether what is shown is of an older version of the job. */
  readonly stale: ReadonlySignal<boolean>;
  readonly bounds: ReadonlySignal<Bounds | null>;
  readonly plays: ReadonlySignal<readonly Play[]>;
  readonly frame: ReadonlySignal<Frame | null>;
  readonly spots: ReadonlySignal<readonly Spot[]>;
  readonly sight: ReadonlySignal<Sight | null>;
  readonly plane: ReadonlySignal<ShownCut | null>;
  readonly layer: ReadonlySignal<number>;
  readonly #bench: Bench;
  readonly #index: ReadonlySignal<MeshIndex | null>;
  /** Of a cut across an axis: what stands towards the reader goes, so that the cut is always seen. */
  readonly #keepsBelow: ReadonlySignal<boolean>;

  /** `desk`: that of the sheet about a model while it is unrolled. */
  constructor(bench: Bench, source: PrintSource, desk: ReadonlySignal<ModelDesk | null> = signal(null)) {
    this.#bench = bench;
    this.model = computed(() =>
      this.stretches.value && this.solids.value ? (desk.value?.sheet.value ?? null) : null,
    );
    this.bands = computed(() => {
      const [model, at] = [this.model.value, desk.value];
      return (
        model &&
        at &&
        shownBands(model, { draft: at.draft.value, at: at.at.value, lit: at.lit.value }, this.size.value[0])
      );
    });
    this.part = computed(() => {
      const made = bench.made.value;
      const print = source.shown.value;
      const wanted = this.manner.value;
      const needed = wanted !== 'drawn' || this.cut.value === 'layers' || this.play.value.id !== '';
      // A print that is a moment old is better than none, as long as it is of the same parts.
      const kept = print && made && (print.of === made || (needed && alike(print.of, made))) ? print : null;
      const from = kept?.of ?? made;
      const scene = from?.scene.find(({ id }) => id === this.#member.value) ?? from?.scene[0];
      if (!scene) return null;
      const round = kept?.parts.find(({ id }) => id === scene.id) ?? null;
      const manner: Manner = round ? (this.cut.value === 'layers' ? 'print' : wanted) : 'drawn';
      return { scene, round, mesh: manner === 'drawn' ? scene.mesh : round!.print, manner };
    });
    this.stale = computed(() => {
      // A model is always the newest: it moves under the hand.
      if (this.model.value) return false;
      const part = this.part.value;
      const made = bench.made.value;
      const refused = bench.outcome.value?.kind === 'refused';
      return bench.stale.value || refused || (part !== null && !made?.scene.includes(part.scene));
    });
    let held: Bounds | null = null;
    this.bounds = computed(() => {
      const [model, part] = [this.model.value, this.part.value];
      held = model ? steady(held, boundsOf(model.round.mesh)) : null;
      return held ?? (part && boundsOf(part.scene.mesh));
    });
    this.plays = computed(() => this.part.value?.round?.plays ?? []);
    this.frame = computed(() => {
      const { id, frame } = this.play.value;
      const play = this.plays.value.find((one) => one.id === id);
      return play ? play.frames[Math.min(frame, play.frames.length - 1)]! : null;
    });
    this.spots = computed(() => {
      const part = this.part.value;
      const findings = bench.made.value?.result.findings ?? [];
      return part ? spotsOf(findings, part.scene.id, part.scene.onBed) : [];
    });
    this.sight = computed(() => {
      const [bounds, size] = [this.bounds.value, this.size.value];
      if (!bounds || size[0] === 0) return null;
      const camera = this.camera.value;
      const view = this.view(camera);
      return {
        view,
        target: targetOf(camera, view, bounds.middle, bounds.radius),
        scale: (camera.zoom * Math.min(...size)) / 2 / (1.3 * bounds.radius),
      };
    });
    this.layer = computed(() => {
      const count = this.part.value?.round?.layers.length ?? 0;
      return Math.max(0, Math.min(count - 1, Math.round(this.share.value * (count - 1))));
    });
    this.#keepsBelow = computed(() => {
      const k = 'xyz'.indexOf(this.cut.value);
      return k < 0 || this.view(this.camera.value).toward[k]! >= 0;
    });
    this.plane = computed(() => this.#planeNow());
    this.#index = computed(() => {
      const mesh = this.model.value?.round.mesh ?? this.part.value?.mesh;
      return mesh && mesh.triangles.length / 3 <= MOST_SEARCHED ? new MeshIndex(mesh) : null;
    });
  }

  get members(): readonly ScenePart[] {
    return this.#bench.made.value?.scene ?? [];
  }

  get member(): string {
    return this.part.value?.scene.id ?? '';
  }

  choose(member: string): void {
    this.#member.value = member;
  }

  /** Layer by layer the part lies as on the bed; else it stands as in the machine. */
  get upright(): Placement {
    const part = this.part.value;
    return part && this.cut.value === 'layers'
      ? { rotation: inverse(part.scene.onBed).rotation, translation: [0, 0, 0] }
      : identity;
  }

  view(camera: Camera): View {
    return viewOfCamera(camera, this.upright);
  }

  /** The camera that sees a spot of the part best. */
  seeing(spot: Vec3): Camera {
    const camera = this.camera.peek();
    const { toward } = this.view(camera);
    const index = this.#index.peek();
    const plastic = (from: Vec3, way: Vec3): number => (index ? plasticAlong(index, from, way) : 0);
    const back = inverse(this.upright);
    return lookingFrom({ ...camera, pan: [0, 0] }, turn(back, bestSight(spot, toward, plastic)));
  }

  /** Whether plastic stands before a spot as it is looked at. */
  hides(spot: Vec3): boolean {
    const [index, sight] = [this.#index.value, this.sight.value];
    return index !== null && sight !== null && index.hit(spot, sight.view.toward, 0.05) !== null;
  }

  /** First place of the part under a point of the picture, pixels. */
  under([x, y]: Readonly<Vec2>): Vec3 | null {
    const [index, sight, size] = [this.#index.peek(), this.sight.peek(), this.size.peek()];
    if (!index || !sight) return null;
    const { view, target, scale } = sight;
    const far = 1000;
    const from = [0, 1, 2].map(
      (k) =>
        target[k]! +
        ((x - size[0] / 2) / scale) * view.right[k]! -
        ((y - size[1] / 2) / scale) * view.up[k]! +
        far * view.toward[k]!,
    ) as Vec3;
    const way: Vec3 = [-view.toward[0], -view.toward[1], -view.toward[2]];
    const hit = index.hit(from, way);
    return hit && add(from, [way[0] * hit.distance, way[1] * hit.distance, way[2] * hit.distance]);
  }

  #planeNow(): ShownCut | null {
    const [part, bounds, cut] = [this.part.value, this.bounds.value, this.cut.value];
    if (!part || !bounds || cut === 'whole') return null;
    if (cut === 'layers') {
      if (!part.round) return null;
      const back = inverse(part.scene.onBed);
      const normal = turn(back, [0, 0, 1]);
      const height = part.round.layers[this.layer.value]?.middle ?? 0;
      const level = dot(normal, add(place(back, [0, 0, height]), part.round.seated));
      return { normal, level, below: true };
    }
    const k = 'xyz'.indexOf(cut) as 0 | 1 | 2;
    const normal: Vec3 = [0, 0, 0];
    normal[k] = 1;
    const level = bounds.low[k] + this.share.value * (bounds.high[k] - bounds.low[k]);
    return { normal, level, below: this.#keepsBelow.value };
  }
}

/** Whether two versions of a job make the same parts, so that the picture of the one may stand in for the other. */
const alike = (
  a: { readonly scene: readonly ScenePart[] },
  b: { readonly scene: readonly ScenePart[] },
): boolean => a.scene.map(({ id }) => id).join() === b.scene.map(({ id }) => id).join();

/** Bounds of a model that changes under the hand: as before while it stays well in the picture, so that nothing jumps when a
 *  stretch is let go. */
function steady(before: Bounds | null, now: Bounds): Bounds {
  if (!before) return now;
  const off = Math.hypot(...now.middle.map((x, k) => x - before.middle[k]!));
  return off + now.radius < 1.28 * before.radius && now.radius > 0.6 * before.radius ? before : now;
}

function boundsOf({ positions }: Mesh): Bounds {
  const [low, high]: [Vec3, Vec3] = [
    [Infinity, Infinity, Infinity],
    [-Infinity, -Infinity, -Infinity],
  ];
  positions.forEach((value, i) => {
    low[i % 3] = Math.min(low[i % 3]!, value);
    high[i % 3] = Math.max(high[i % 3]!, value);
  });
  const middle = low.map((value, k) => (value + high[k]!) / 2) as Vec3;
  return { low, high, middle, radius: Math.hypot(...high.map((value, k) => value - low[k]!)) / 2 };
}

/** Plastic on the way out from a point, mm. */
export function plasticAlong(index: MeshIndex, from: Vec3, way: Vec3): number {
  let inside = index.holds(from);
  let [plastic, last] = [0, 0];
  for (let n = 0; n < 32; n++) {
    const hit = index.hit(from, way, last + 1e-6);
    if (!hit) break;
    if (inside) plastic += hit.distance - last;
    inside = !inside;
    last = hit.distance;
  }
  return plastic;
}

const drawnLines = new WeakMap<Mesh, Linework>();

/** Lines of a mesh, worked out once. */
export function linesOf(mesh: Mesh): Linework {
  let lines = drawnLines.get(mesh);
  if (!lines) {
    lines = lineworkOf(mesh);
    drawnLines.set(mesh, lines);
  }
  return lines;
}
