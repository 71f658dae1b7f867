/** How many copies a ladder has. */
export const RUNGS = { fewest: 3, most: 15, normal: 7 } as const;

/** Clearance from one copy to the next, mm; `leastNormal` where nobody says otherwise, however narrow the window. */
export const STEP = { least: 0.01, most: 1, leastNormal: 0.03 } as const;
