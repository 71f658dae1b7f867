import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { FitSurface } from '../../src/job/solidView.ts';
import { cutFace } from './cutFace.ts';
import { beyond, gapColour } from './gapColour.ts';
import { type Inks, inksOf } from './inks.ts';
import { poseOf } from './pose.ts';
import { linesOf, type SolidState } from './solidState.ts';
import { linear, type Stage, type StageCut } from './stage.ts';

/** The inks of the page around an element, new ones when day turns to night. */
export function inksAround(element: Element): { readonly inks: ReadonlySignal<Inks>; stop(): void } {
  const inks = signal(inksOf(element));
  const night = matchMedia('(prefers-color-scheme: dark)');
  const change = (): void => {
    inks.value = inksOf(element);
  };
  night.addEventListener('change', change);
  return { inks, stop: () => night.removeEventListener('change', change) };
}

/** Keeps the picture as the state says, until the function it gives back is called. Each effect does one thing, so that turning
 *  the part builds nothing anew. */
export function keepStage(stage: Stage, state: SolidState, inks: ReadonlySignal<Inks>): () => void {
  let [shown, machine]: [unknown, unknown] = [null, null];
  let modelled: { readonly mesh: unknown; readonly axis: string } = { mesh: null, axis: '' };
  const stops = [
    effect(() => stage.dress(inks.value)),
    effect(() => {
      const model = state.model.value;
      const mesh = model?.round.mesh ?? null;
      const axis = model?.axes[model.shown]?.axis.join() ?? '';
      if (mesh === modelled.mesh && axis === modelled.axis) return;
      modelled = { mesh, axis };
      stage.showModel(model && { lines: linesOf(model.round.mesh), axis: model.axes[model.shown]!.axis });
    }),
    effect(() => {
      const bands = state.bands.value;
      if (bands) stage.showBands(bands);
    }),
    effect(() => {
      // Beneath a model the part is not seen, and need not be drawn anew.
      const part = state.model.value ? null : state.part.value;
      if (!part) return;
      const { manner, round, mesh } = part;
      const fit = manner === 'gaps' && round ? round.fit : null;
      const colours = fit && coloursOf(fit, poseOf(state), inks.value);
      if (fit && shown === fit && colours) {
        stage.colourGaps(colours);
        return;
      }
      shown = fit ?? mesh;
      stage.showPart(
        linesOf(mesh),
        manner === 'drawn' ? 'part' : 'print',
        fit && colours && { corners: fit.positions, colours },
      );
    }),
    effect(() => {
      const hosts = state.part.value?.scene.hosts ?? [];
      if (hosts !== machine) stage.showMachine(hosts.map(({ id, mesh }) => ({ id, lines: linesOf(mesh) })));
      machine = hosts;
      const away = !state.machine.value || state.cut.value === 'layers' || state.model.value !== null;
      stage.placeMachine(away ? null : (state.frame.value?.placements ?? {}));
    }),
    effect(() => {
      void inks.value;
      stage.cut(cutOf(state));
    }),
    effect(() => {
      const [width, height] = state.size.value;
      if (width > 0) stage.size(width, height);
    }),
    effect(() => {
      const sight = state.sight.value;
      if (sight) stage.look(sight);
    }),
  ];
  return () => {
    for (const stop of stops) stop();
  };
}

function coloursOf(fit: FitSurface, pose: number, inks: Inks): Float32Array {
  const plain = inks.plain.map(linear);
  const colours = new Float32Array(fit.positions.length);
  const gaps = fit.poses[pose];
  for (let corner = 0; corner < colours.length / 3; corner++) {
    const gap = gaps?.gap[corner] ?? Number.NaN;
    colours.set(
      Number.isNaN(gap)
        ? plain
        : gapColour(beyond(gap, fit.wanted[gaps!.against[corner]!]!), inks).map(linear),
      3 * corner,
    );
  }
  return colours;
}

/** Hatching is this share of the part's size apart. */
const HATCH = 1 / 28;

function cutOf(state: SolidState): StageCut | null {
  const [plane, part, bounds] = [state.plane.value, state.part.value, state.bounds.value];
  if (!plane || !part || !bounds || state.model.value) return null;
  const placements = state.frame.value?.placements ?? {};
  const bare = !state.machine.value || state.cut.value === 'layers';
  const around = bare ? [] : part.scene.hosts.filter(({ id }) => placements[id] !== null);
  return {
    plane,
    below: plane.below,
    face: cutFace(part.mesh, plane, HATCH * bounds.radius * 2),
    machine: around.map(({ id, mesh }) => cutFace(mesh, plane, 0, placements[id] ?? undefined).outline),
  };
}
