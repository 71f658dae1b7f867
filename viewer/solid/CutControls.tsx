import { formatNumber } from '../../src/units/index.ts';
import { SliderRow } from './SliderRow.tsx';
import { type Cut, cuts, type SolidState } from './solidState.ts';

const names = {
  whole: 'nowhere',
  x: 'from left to right',
  y: 'from front to back',
  z: 'from bottom to top',
  layers: 'layer by layer',
} as const;

/** Steps of a cut across the part. */
const STEPS = 200;

/** Where the part is cut open, and its layers one on the other. */
export function CutControls({ state, disabled }: { readonly state: SolidState; readonly disabled: boolean }) {
  const cut = state.cut.value;
  const layers = state.part.value?.round?.layers.length ?? 0;
  const steps = cut === 'layers' ? Math.max(1, layers - 1) : STEPS;
  return (
    <SliderRow
      name="cut"
      choice={disabled ? 'whole' : cut}
      options={cuts.map((id) => ({ id, name: names[id] }))}
      onChoose={(id) => {
        state.cut.value = id as Cut;
        if (id === 'layers') state.share.value = 1;
      }}
      disabled={disabled}
      slider={
        cut === 'whole' || disabled || (cut === 'layers' && layers === 0)
          ? null
          : {
              name: cut === 'layers' ? 'layer' : `cut ${names[cut]}`,
              steps,
              value: Math.round(state.share.value * steps),
              words: cut === 'layers' ? layerWords(state) : placeWords(state),
              onSlide: (value) => {
                state.share.value = value / steps;
              },
            }
      }
    />
  );
}

function placeWords(state: SolidState): string {
  const [bounds, cut] = [state.bounds.value, state.cut.value];
  const k = 'xyz'.indexOf(cut);
  if (!bounds || k < 0) return '';
  const length = bounds.high[k]! - bounds.low[k]!;
  return `at ${formatNumber(state.share.value * length)} of ${formatNumber(length)} mm`;
}

function layerWords(state: SolidState): string {
  const layers = state.part.value?.round?.layers ?? [];
  const k = state.layer.value;
  return `layer ${k + 1} of ${layers.length}, ${formatNumber(layers[k]!.top)} mm above the bed`;
}
