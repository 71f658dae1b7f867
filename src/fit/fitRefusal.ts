export type FitRefusalCode =
  | 'window_empty'
  | 'window_unbounded'
  | 'aim_outside_window'
  | 'line_spread_not_positive'
  | 'line_mean_not_finite'
  | 'line_repeated'
  | 'contributor_repeated'
  | 'contributor_unknown'
  | 'contributor_out_of_range'
  | 'no_lines'
  | 'too_many_lines'
  | 'step_minutes_not_positive';

/** A fit that cannot be reckoned, as data; `message` is the same in one sentence. */
export class FitRefusal extends RangeError {
  readonly code: FitRefusalCode;
  /** The window, line, contributor or step concerned. */
  readonly subject: string;
  /** The value that was given, as text. */
  readonly given: string;

  constructor(code: FitRefusalCode, subject: string, required: string, given: string) {
    super(`${subject} requires ${required} (given ${given})`);
    this.name = 'FitRefusal';
    this.code = code;
    this.subject = subject;
    this.given = given;
  }
}
