type Code =
  | 'take_up_empty'
  | 'take_up_too_short'
  | 'take_ups_overlap'
  | 'not_finite'
  | 'nothing_wanted'
  | 'cut_outside'
  | 'cut_not_closed';

/** A change along an axis that cannot be made, as data; `message` is the same in one sentence. */
export class RespaceRefusal extends RangeError {
  readonly code: Code;

  constructor(code: Code, required: string, given: string) {
    super(`re-spacing requires ${required} (given ${given})`);
    this.name = 'RespaceRefusal';
    this.code = code;
  }
}
