import { useEffect, useState } from 'preact/hooks';
import './dropFrame.css';

/** While a file hovers over the page: a frame that says it may be let go anywhere. */
export function DropFrame() {
  const [hovers, setHovers] = useState(false);
  useEffect(() => {
    // Every element that is entered is left again, the last one when the file goes.
    let depth = 0;
    const holdsFiles = ({ dataTransfer }: DragEvent) => dataTransfer?.types.includes('Files') ?? false;
    const enter = (event: DragEvent) => {
      if (!holdsFiles(event)) return;
      depth++;
      setHovers(true);
    };
    const leave = () => {
      depth = Math.max(0, depth - 1);
      if (depth === 0) setHovers(false);
    };
    const end = () => {
      depth = 0;
      setHovers(false);
    };
    const heard = [
      ['dragenter', enter],
      ['dragleave', leave],
      ['drop', end],
      ['dragend', end],
    ] as const;
    for (const [name, listener] of heard) addEventListener(name, listener as EventListener);
    return () => {
      for (const [name, listener] of heard) removeEventListener(name, listener as EventListener);
    };
  }, []);
  if (!hovers) return null;
  return (
    <div class="drop-frame" aria-hidden="true">
      <p>Let go anywhere: a model of a similar part, a job, a bundle, a printer</p>
    </div>
  );
}
