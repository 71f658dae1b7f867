import { useId } from 'preact/hooks';
import { formatNumber } from '../../src/units/index.ts';
import { Segments } from './Segments.tsx';
import { cuts, type SolidState } from './solidState.ts';

const names = {
  whole: 'nowhere',
  x: 'left to right',
  y: 'front to back',
  z: 'bottom to top',
  layers: 'layer by layer',
} as const;

/** Where the part is cut open, and its layers one on the other. */
export function CutControls({ state, disabled }: { readonly state: SolidState; readonly disabled: boolean }) {
  const id = useId();
  const cut = state.cut.value;
  const layers = state.part.value?.round?.layers ?? [];
  const steps = cut === 'layers' ? Math.max(1, layers.length - 1) : 200;
  const words = cut === 'layers' ? layerWords(state) : placeWords(state);
  return (
    <div class="row cut">
      <Segments
        legend="cut"
        value={state.cut}
        options={cuts.map((one) => ({ id: one, name: names[one], disabled }))}
      />
      {cut !== 'whole' && !disabled && (
        <div class="slider">
          <label for={id}>{cut === 'layers' ? 'layer' : 'cut at'}</label>
          <input
            id={id}
            type="range"
            min={0}
            max={steps}
            step={1}
            value={Math.round(state.share.value * steps)}
            aria-valuetext={words}
            onInput={({ currentTarget: { value } }) => {
              state.share.value = Number(value) / steps;
            }}
          />
          <output for={id}>{words}</output>
        </div>
      )}
    </div>
  );
}

function placeWords(state: SolidState): string {
  const [bounds, cut] = [state.bounds.value, state.cut.value];
  const k = 'xyz'.indexOf(cut);
  if (!bounds || k < 0) return '';
  const length = bounds.high[k]! - bounds.low[k]!;
  return `${formatNumber(state.share.value * length)} of ${formatNumber(length)} mm`;
}

function layerWords(state: SolidState): string {
  const layers = state.part.value?.round?.layers;
  if (!layers) return 'the layers come with the print';
  const k = state.layer.value;
  return `${k + 1} of ${layers.length}, ${formatNumber(layers[k]!.top)} mm high`;
}
