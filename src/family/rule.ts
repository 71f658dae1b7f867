/** A relation between readings, choices and sizes that must hold for the part to exist. */
export interface Rule {
  readonly ok: boolean;
  /** Reading, choice or size to blame, by its key. */
  readonly field: string;
  /** Ends the sentence that starts with the field's name: "leaves no wall around the bar (wall 0.2 mm, at least 0.6 mm)". */
  readonly reason: string;
}

/** States a rule; see `Rule`. */
export const sane = (ok: boolean, field: string, reason: string): Rule => ({ ok, field, reason });
