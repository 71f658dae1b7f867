import { formatLength } from '../units/index.ts';
import type { Check } from './context.ts';
import { type Bridge, unsupportedOf } from './unsupported.ts';

/** Bridge: the longest stretch printed across open air from one side to another, against what the printer spans
 *  clean. mm; 0 when nothing is bridged. */
export const bridge: Check = (context) => {
  const { printer } = context;
  const longest = unsupportedOf(context).bridges.reduce<Bridge | null>(
    (a, b) => (a === null || b.span > a.span ? b : a),
    null,
  );
  const span = longest?.span ?? 0;
  const holds = span <= printer.bridge;
  return [
    {
      ...{ id: 'bridge', title: 'longest bridge', verdict: holds ? 'holds' : 'fails' },
      ...{ value: span, limit: printer.bridge, unit: 'mm', margin: printer.bridge - span },
      because:
        longest === null
          ? 'nothing is printed across open air'
          : `strands ${formatLength(longest.at[2])} above the bed span ${formatLength(span)} of open air; this printer spans ${formatLength(printer.bridge)}`,
      source: `printer profile ${printer.name}`,
      remedy: holds ? '' : 'lay the part another way, or print it with support under the bridge',
      at: longest?.at ?? null,
    },
  ];
};
