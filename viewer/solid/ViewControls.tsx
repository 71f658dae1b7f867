import { cameraAfterKey, home, type NamedView, namedViews } from './camera.ts';
import type { CameraMover } from './moveCamera.ts';
import type { SolidState } from './solidState.ts';

const steps = [
  { key: 'ArrowLeft', name: 'Turn to the left', sign: 'M14 4 6 10l8 6' },
  { key: 'ArrowRight', name: 'Turn to the right', sign: 'M6 4l8 6-8 6' },
  { key: 'ArrowUp', name: 'Tilt up', sign: 'M4 14l6-8 6 8' },
  { key: 'ArrowDown', name: 'Tilt down', sign: 'M4 6l6 8 6-8' },
  { key: '-', name: 'Smaller', sign: 'M4 10h12' },
  { key: '+', name: 'Larger', sign: 'M4 10h12M10 4v12' },
] as const;

/** Where the part is looked at from: named views, and steps for those who do not drag. */
export function ViewControls({ state, mover }: { readonly state: SolidState; readonly mover: CameraMover }) {
  return (
    <div class="row views">
      <fieldset class="buttons">
        <legend>from</legend>
        <div>
          {(Object.keys(namedViews) as NamedView[]).map((name) => (
            <button
              key={name}
              type="button"
              onClick={() => mover.to({ ...state.camera.peek(), ...namedViews[name], pan: [0, 0] })}
            >
              {name}
            </button>
          ))}
        </div>
      </fieldset>
      <fieldset class="buttons signs">
        <legend>turn, size</legend>
        <div>
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
          <button type="button" onClick={() => mover.to(home)}>
            whole
          </button>
        </div>
      </fieldset>
    </div>
  );
}
