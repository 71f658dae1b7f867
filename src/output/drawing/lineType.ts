/** Line widths of group 0.5, mm (ISO 128-2:2020, 5: wide to narrow as 2 : 1). */
export const lineWidth = { wide: 0.5, narrow: 0.25 } as const;

/** How a line is drawn. */
export interface LineStyle {
  /** mm. */
  readonly width: number;
  /** Marks and gaps in turn, mm; empty: continuous. */
  readonly dashes: readonly number[];
}

/** Lengths of the elements of a line of width `d` (ISO 128-2, line elements: dots up to 0.5 d, gaps 3 d, dashes 12 d,
 *  long dashes 24 d; from memory of ISO 128-20:1996, table 3, which it replaced). */
const element = (d: number) => ({ dot: 0.5 * d, gap: 3 * d, dash: 12 * d, longDash: 24 * d });

/** Continuous line, type 01. */
const continuous = (width: number): LineStyle => ({ width, dashes: [] });

/** Dashed line, type 02: hidden edges. */
function dashed(width: number): LineStyle {
  const { dash, gap } = element(width);
  return { width, dashes: [dash, gap] };
}

/** Long-dashed dotted line, type 04: centre lines. */
function chain(width: number): LineStyle {
  const { longDash, gap, dot } = element(width);
  return { width, dashes: [longDash, gap, dot, gap] };
}

/** Long-dashed double-dotted line, type 05: outlines of adjacent parts. */
function chainDoubleDotted(width: number): LineStyle {
  const { longDash, gap, dot } = element(width);
  return { width, dashes: [longDash, gap, dot, gap, dot, gap] };
}

/** What is drawn how (ISO 128-2:2020, annex A). */
export const lineType = {
  visibleEdge: continuous(lineWidth.wide),
  hiddenEdge: dashed(lineWidth.narrow),
  adjacentEdge: continuous(lineWidth.narrow),
  adjacentHidden: dashed(lineWidth.narrow),
  adjacentOutline: chainDoubleDotted(lineWidth.narrow),
  centreLine: chain(lineWidth.narrow),
  dimensionLine: continuous(lineWidth.narrow),
} as const satisfies Readonly<Record<string, LineStyle>>;
