import { useSignal, useSignalEffect } from '@preact/signals';
import { useCallback, useEffect, useMemo, useRef } from 'preact/hooks';
import { useBench } from '../bench/bench.ts';
import { openWorker } from '../start/openWorker.ts';
import { Balloons } from './Balloons.tsx';
import { CutControls } from './CutControls.tsx';
import { GapScale } from './GapScale.tsx';
import { handle } from './handling.ts';
import { LinePicture } from './LinePicture.tsx';
import { MannerControls } from './MannerControls.tsx';
import { MemberChoice } from './MemberChoice.tsx';
import { CameraMover } from './moveCamera.ts';
import { PlayControls } from './PlayControls.tsx';
import { PrintSource } from './printSource.ts';
import { SolidCanvas } from './SolidCanvas.tsx';
import { SolidWords } from './SolidWords.tsx';
import { SolidState } from './solidState.ts';
import { ViewControls } from './ViewControls.tsx';
import './solid.css';

/** The part in the round: turned, cut, in motion, with its gaps in colour and its findings where they are. */
export default function SolidView() {
  const bench = useBench();
  const { source, state, mover } = useMemo(() => {
    const source = new PrintSource(openWorker);
    const state = new SolidState(bench, source);
    return { source, state, mover: new CameraMover(state.camera) };
  }, [bench]);
  const withoutSolids = useSignal<'no' | 'none' | 'lost'>('no');
  useEffect(() => source.follow(bench), [bench, source]);
  const setTrouble = useCallback(
    (kind: 'no' | 'none' | 'lost') => {
      withoutSolids.value = kind;
      if (kind === 'none' && state.manner.peek() === 'gaps') state.manner.value = 'print';
    },
    [withoutSolids, state],
  );
  const surface = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = surface.current!;
    const watch = new ResizeObserver(() => {
      state.size.value = [element.clientWidth, element.clientHeight];
    });
    watch.observe(element);
    const letGo = handle(element, state, mover);
    return () => {
      watch.disconnect();
      letGo();
    };
  }, [state, mover]);
  useSignalEffect(() => {
    // A balloon that is picked anywhere turns the part to its spot.
    const picked = bench.balloon.value;
    if (picked === null) return;
    const finding = bench.made.peek()?.result.findings[picked - 1];
    const owner = state.members.find(({ id }) => id !== '' && finding?.id.startsWith(`${id}.`));
    if (owner && owner.id !== state.member) state.choose(owner.id);
    const spot = state.spots.peek().find(({ findings }) => findings.some(({ number }) => number === picked));
    if (spot) mover.to(state.seeing(spot.at));
  });
  const trouble = source.trouble.value;
  const lines = withoutSolids.value !== 'no';
  return (
    <div class={`in-the-round${state.stale.value ? ' stale' : ''}`}>
      <MemberChoice state={state} />
      <div class="picture">
        <div
          ref={surface}
          class="surface"
          // biome-ignore lint/a11y/noNoninteractiveTabindex: it is turned by keys
          tabIndex={0}
          role="application"
          aria-roledescription="picture that turns"
          aria-label="The part in the round"
          aria-describedby="round-size round-keys"
        >
          {lines && <LinePicture state={state} source={source} />}
          {withoutSolids.value !== 'none' && (
            <SolidCanvas state={state} hidden={lines} onTrouble={setTrouble} />
          )}
        </div>
        <p class="keys" id="round-keys">
          Arrows turn, shift and arrows move, + and - zoom, Home shows the whole.
        </p>
        <Balloons state={state} />
      </div>
      <SolidWords state={state} />
      {lines && (
        <p class="note">
          {withoutSolids.value === 'none'
            ? 'This browser shows no solids (WebGL is off), so the part is drawn in lines.'
            : 'The picture was lost for the moment and is drawn in lines; it comes back by itself.'}
        </p>
      )}
      {trouble !== null && (
        <p class="note">
          The print could not be worked out: {trouble}.{' '}
          <button type="button" onClick={() => source.again()}>
            Try again
          </button>
        </p>
      )}
      <ViewControls state={state} mover={mover} />
      <MannerControls state={state} lines={lines} />
      {state.manner.value === 'gaps' && state.cut.value !== 'layers' && !lines && <GapScale state={state} />}
      <CutControls state={state} disabled={lines} />
      <PlayControls state={state} />
    </div>
  );
}
