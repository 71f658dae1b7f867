import { assembly } from './assembly.ts';
import { bedContact } from './bedContact.ts';
import { bedFit } from './bedFit.ts';
import { bridge } from './bridge.ts';
import { clearance } from './clearance.ts';
import type { Check } from './context.ts';
import { familyFindings } from './familyFindings.ts';
import { gapWidth } from './gapWidth.ts';
import { heat } from './heat.ts';
import { layerDirection } from './layerDirection.ts';
import { motionClearance } from './motionClearance.ts';
import { overhang } from './overhang.ts';
import { readings } from './readings.ts';
import { snap } from './snap.ts';
import { soundness } from './soundness.ts';
import { wallThickness } from './wallThickness.ts';

/** Every check, in the order findings of one verdict are listed. One more is one more file and one more line here. */
export const checks: readonly Check[] = [
  readings,
  clearance,
  motionClearance,
  familyFindings,
  snap,
  layerDirection,
  assembly,
  heat,
  wallThickness,
  gapWidth,
  overhang,
  bridge,
  bedContact,
  bedFit,
  soundness,
];
