import { ModelStrips } from '../../donor/ModelStrips.tsx';
import { ExampleStrip } from './ExampleStrip.tsx';
import { KeepingStrip } from './KeepingStrip.tsx';
import { PenStrip } from './PenStrip.tsx';
import { PrinterStrip } from './PrinterStrip.tsx';
import { SpineStrip } from './SpineStrip.tsx';
import { ToldStrip } from './ToldStrip.tsx';
import { UpdateStrip } from './UpdateStrip.tsx';
import '../strips.css';

/** All that the page says about itself; what is wrong first. */
export function Strips() {
  return (
    <div class="notices" aria-live="polite">
      <SpineStrip />
      <KeepingStrip />
      <PenStrip />
      <PrinterStrip />
      <ModelStrips />
      <ToldStrip />
      <UpdateStrip />
      <ExampleStrip />
    </div>
  );
}
