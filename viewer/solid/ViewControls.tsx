import { cameraAfterKey, home, type NamedView, namedViews } from './camera.ts';
import type { CameraMover } from './moveCamera.ts';
import type { SolidState } from './solidState.ts';
import { Tick } from './Tick.tsx';

const steps = [
  { key: 'ArrowLeft', name: 'Turn to the left', sign: 'M13 4 6 10l7 6' },
  { key: 'ArrowRight', name: 'Turn to the right', sign: 'M7 4l7 6-7 6' },
  { key: 'ArrowUp', name: 'Tilt up', sign: 'M4 13l6-7 6 7' },
  { key: 'ArrowDown', name: 'Tilt down', sign: 'M4 7l6 7 6-7' },
  { key: '-', name: 'Smaller', sign: 'M4 10h12' },
  { key: '+', name: 'Larger', sign: 'M4 10h12M10 4v12' },
] as const;

/** Where the part is looked at from: named views, and steps for those who do not drag. */
export function ViewControls({ state, mover }: { readonly state: SolidState; readonly mover: CameraMover }) {
  return (
    <div class="row">
      <fieldset class="buttons" aria-labelledby="round-from">
        <span class="name" id="round-from">
          from
        </span>
        {(Object.keys(namedViews) as NamedView[]).map((name) => (
          <button key={name} type="button" onClick={() => mover.to({ ...home, ...namedViews[name] })}>
            {name}
          </button>
        ))}
      </fieldset>
      <fieldset class="buttons signs" aria-label="turn and size">
        {steps.map(({ key, name, sign }) => (
          <button
            key={key}
            type="button"
            aria-label={name}
            title={name}
            onClick={() => mover.to(cameraAfterKey(state.camera.peek(), key, false)!)}
          >
            <svg viewBox="0 0 20 20" aria-hidden="true">
              <path d={sign} />
            </svg>
          </button>
        ))}
      </fieldset>
      {!state.model.value && (
        <>
          <Tick name="machine" value={state.machine} />
          <Tick name="findings" value={state.balloons} />
        </>
      )}
    </div>
  );
}
