import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { useBench } from '../../bench/bench.ts';
import { spokenWait } from '../../spine/spokenWait.ts';
import { Strip } from '../Strip.tsx';

/** Says when the reckoning broke or was stopped, with one click to go on. */
export function SpineStrip() {
  const { spine, made } = useBench();
  const state = spine.state.value;
  if (state.kind !== 'broken' && state.kind !== 'stopped') return null;
  const shows = made.value ? 'What is shown is of an earlier state of it' : 'Nothing is worked out yet';
  const goOn = (
    <button type="button" onClick={() => spine.restart()}>
      go on
    </button>
  );
  if (state.kind === 'stopped')
    return (
      <Strip kind="mind" name="Reckoning" deeds={goOn}>
        <strong>Stopped.</strong> Your job is safe. {shows}.
      </Strip>
    );
  return (
    <Strip kind="bad" name="Reckoning" deeds={goOn}>
      <strong>The reckoning stopped:</strong> {state.because}. Your job is safe. {shows}.
    </Strip>
  );
}

/** Time after which a wait is spoken of, ms. */
const LONG = 1000;

/** What is being waited for: seen at once, with a way to stop it, and heard once it has lasted. */
export function WaitChip() {
  const { spine } = useBench();
  return (
    <>
      <p class="unseen" role="status">
        {spokenWait(spine).said.value}
      </p>
      <Chip />
    </>
  );
}

/** While something takes longer than a moment: for how long already, and a way to stop it. Floats, so that nothing moves. */
function Chip() {
  const { spine } = useBench();
  const state = spine.state.value;
  const passed = useSignal(0);
  const since = state.kind === 'working' ? state.since : null;
  useEffect(() => {
    passed.value = 0;
    if (since === null) return;
    const look = () => {
      passed.value = performance.now() - since;
    };
    const clock = setInterval(look, 250);
    return () => clearInterval(clock);
  }, [since]);
  if (state.kind !== 'working' || passed.value < LONG) return null;
  return (
    <div class="wait-chip">
      <span>
        reckoning {state.what}, <span class="time">{Math.floor(passed.value / 1000)} s</span>
      </span>
      <button type="button" onClick={() => spine.stop()}>
        stop
      </button>
    </div>
  );
}
