import { useBench } from '../../bench/bench.ts';
import { useDrawer } from '../../drawer/drawer.ts';
import { FeltForm } from './FeltForm.tsx';
import { PlaceVerdicts } from './PlaceVerdicts.tsx';
import { PrintFile } from './PrintFile.tsx';
import { PrintReadings } from './PrintReadings.tsx';
import { PrintsOnRecord } from './PrintsOnRecord.tsx';
import './try.css';
import { tryDesk } from './tryDesk.ts';
import { WhatChanged } from './WhatChanged.tsx';
import { WhichPrint } from './WhichPrint.tsx';

/** Sheet 4: read the print, try it, and see what it taught. */
export default function TrySheet() {
  const desk = tryDesk(useBench(), useDrawer());
  return (
    <div class="try">
      <section class="measure" aria-labelledby="read-the-print">
        <h2 id="read-the-print" tabIndex={-1} data-field="print">
          Read the print before it goes near the machine
        </h2>
        <WhichPrint desk={desk} />
        <PrintFile desk={desk} />
        <PrintReadings desk={desk} />
        <PlaceVerdicts desk={desk} />
      </section>
      <FeltForm desk={desk} />
      <WhatChanged desk={desk} />
      <PrintsOnRecord desk={desk} />
    </div>
  );
}
