import type { InspectionVerdict } from '../../../src/job/inspection/inspection.ts';

const shapes: Readonly<Record<InspectionVerdict, string>> = {
  pass: 'M3 10.5l4.5 4.5L17 5',
  close: 'M10 3l8 14H2zM10 8v4M10 14v1',
  // A flat file: blade with its cuts, and tang.
  rework: 'M2 7h11v6H2zM13 10h5M4 13l3-6M7 13l3-6M10 13l3-6',
  reprint: 'M4 4l12 12M16 4L4 16',
};

/** Where a size of a print stands by its shape: tick, triangle, file, cross. The word stands beside it. */
export function PrintMark({ verdict }: { readonly verdict: InspectionVerdict }) {
  return (
    <svg class={`print-mark ${verdict}`} viewBox="0 0 20 20" aria-hidden="true">
      <path d={shapes[verdict]} />
    </svg>
  );
}
