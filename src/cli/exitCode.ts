/** Exit codes; scripts rely on them, so they stay when the wording changes. */
export const exitCode = {
  /** Done, and no finding failed. */
  done: 0,
  /** What was given was refused; nothing was written. */
  refused: 2,
  /** Made, but a finding failed. */
  failed: 3,
  /** A fault of Fettle's own; EX_SOFTWARE of sysexits. */
  internal: 70,
} as const;
