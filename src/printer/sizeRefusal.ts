export type SizeRefusalCode = 'size_out_of_range' | 'size_not_reachable' | 'direction_not_unit';

/** A size that cannot be printed or asked about, as data; `message` is the same in one sentence. */
export class SizeRefusal extends RangeError {
  readonly code: SizeRefusalCode;
  /** Size given, mm; NaN where a direction was wrong. */
  readonly given: number;

  constructor(
    code: SizeRefusalCode,
    subject: string,
    required: string,
    given: number,
    shown = `${given} mm`,
  ) {
    super(`${subject} requires ${required} (given ${shown})`);
    this.name = 'SizeRefusal';
    this.code = code;
    this.given = given;
  }
}
