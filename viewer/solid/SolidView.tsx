import { useSignal, useSignalEffect } from '@preact/signals';
import { useCallback, useEffect, useMemo, useRef } from 'preact/hooks';
import { useBench } from '../bench/bench.ts';
import { deskAtHand } from '../donor/deskAtHand.ts';
import { openWorker } from '../start/openWorker.ts';
import { Balloons } from './Balloons.tsx';
import { isEndOn } from './bands/alongPicture.ts';
import { BandHandles } from './bands/BandHandles.tsx';
import { keepAxisInSight } from './bands/keepAxisInSight.ts';
import { StretchReadout } from './bands/StretchReadout.tsx';
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
    const state = new SolidState(bench, source, deskAtHand);
    return { source, state, mover: new CameraMover(state.camera) };
  }, [bench]);
  const withoutSolids = useSignal<'no' | 'none' | 'lost'>('no');
  useEffect(
    () => source.follow(bench, () => !(deskAtHand.value && state.stretches.value && state.solids.value)),
    [bench, source, state],
  );
  const setTrouble = useCallback(
    (kind: 'no' | 'none' | 'lost') => {
      withoutSolids.value = kind;
      state.solids.value = kind === 'no';
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
    state.stretches.value = false;
    const finding = bench.made.peek()?.result.findings[picked - 1];
    const owner = state.members.find(({ id }) => id !== '' && finding?.id.startsWith(`${id}.`));
    if (owner && owner.id !== state.member) state.choose(owner.id);
    const spot = state.spots.peek().find(({ findings }) => findings.some(({ number }) => number === picked));
    if (spot) mover.to(state.seeing(spot.at));
  });
  useEffect(() => keepAxisInSight(state, mover), [state, mover]);
  const [desk, model] = [deskAtHand.value, state.model.value];
  useSignalEffect(() => {
    // Whoever unrolls the sheet about the model wants to see where it can change.
    if (deskAtHand.value) state.stretches.value = true;
  });
  const trouble = source.trouble.value;
  const lines = withoutSolids.value !== 'no';
  return (
    <div class={`in-the-round${state.stale.value ? ' stale' : ''}`}>
      {!model && <MemberChoice state={state} />}
      <div class="picture">
        <div
          ref={surface}
          class="surface"
          // biome-ignore lint/a11y/noNoninteractiveTabindex: it is turned by keys
          tabIndex={0}
          role="application"
          aria-roledescription="picture that turns"
          aria-label={model ? 'The model in the round, its stretches in colour' : 'The part in the round'}
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
        {desk && <BandHandles desk={desk} state={state} />}
      </div>
      {desk && model && (
        <StretchReadout
          {...{ desk, model }}
          width={state.size.value[0]}
          isEndOn={isEndOn(state.sight.value, model)}
        />
      )}
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
      {!model && state.manner.value === 'gaps' && state.cut.value !== 'layers' && !lines && (
        <GapScale state={state} />
      )}
      {!model && <CutControls state={state} disabled={lines} />}
      {!model && <PlayControls state={state} />}
    </div>
  );
}
