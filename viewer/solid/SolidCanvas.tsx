import { useEffect, useRef } from 'preact/hooks';
import type { SolidState } from './solidState.ts';
import { Stage } from './stage.ts';
import { inksAround, keepStage } from './stageUpkeep.ts';

interface SolidCanvasProps {
  readonly state: SolidState;
  /** Something else is shown in its place. */
  readonly hidden: boolean;
  /** There is no WebGL, it was lost, or it came back. */
  readonly onTrouble: (kind: 'no' | 'none' | 'lost') => void;
}

/** The solids on their canvas; it fills what is around it, which is told how large it is. */
export function SolidCanvas({ state, hidden, onTrouble }: SolidCanvasProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const element = canvas.current!;
    const { inks, stop } = inksAround(element);
    let stage: Stage;
    try {
      stage = new Stage(element, inks.peek());
    } catch {
      stop();
      onTrouble('none');
      return;
    }
    const letGo = keepStage(stage, state, inks);
    const lost = (event: Event): void => {
      // Without this the browser never gives it back.
      event.preventDefault();
      onTrouble('lost');
    };
    const found = (): void => {
      onTrouble('no');
      stage.draw();
    };
    element.addEventListener('webglcontextlost', lost);
    element.addEventListener('webglcontextrestored', found);
    return () => {
      element.removeEventListener('webglcontextlost', lost);
      element.removeEventListener('webglcontextrestored', found);
      letGo();
      stop();
      stage.dispose();
    };
  }, [state, onTrouble]);
  return <canvas ref={canvas} hidden={hidden} />;
}
