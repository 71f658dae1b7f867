/** Sheets used, width and height, mm (ISO 216, ISO 5457:1999): A4 upright, A3 lying. */
export const papers = {
  A4: [210, 297],
  A3: [420, 297],
} as const satisfies Readonly<Record<string, readonly [number, number]>>;
export type Paper = keyof typeof papers;

/** Margins of the frame, mm: wide on the left, to be filed (ISO 5457:1999, 4.2). */
export const margin = { left: 20, other: 10 } as const;

/** Width of the title block, mm (ISO 7200:2004, 4.2): the breadth of A4 within its frame. */
export const TITLE_WIDTH = 180;
