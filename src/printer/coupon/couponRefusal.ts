/** Why no coupon can be drawn for a profile, as data; `message` is the same in one sentence. */
export class CouponRefusal extends RangeError {
  readonly code = 'coupon_not_printable';
  /** Field of the profile: `bed.x`. */
  readonly field: string;
  /** Value given, mm. */
  readonly given: number;
  /** What is allowed, as the end of a sentence. */
  readonly allowed: string;

  constructor(field: string, given: number, allowed: string) {
    super(`coupon requires ${field} of ${allowed} (given ${given} mm)`);
    this.name = 'CouponRefusal';
    this.field = field;
    this.given = given;
    this.allowed = allowed;
  }
}
