import type { Vec3 } from '../../solid/vector.ts';

export type ResizeRefusalCode =
  | 'diameter_not_positive'
  | 'round_not_found'
  | 'round_breaks_through'
  | 'round_meets_other'
  | 'round_not_closed';

/** A bore or post that cannot be given another diameter, as data; `message` is the same in one sentence. */
export class ResizeRefusal extends RangeError {
  readonly code: ResizeRefusalCode;
  /** The feature concerned. */
  readonly subject: string;
  /** What was asked, as text. */
  readonly given: string;
  /** What is allowed, as the end of the sentence "allowed: ...". */
  readonly allowed: string;
  /** Where it goes wrong, in the unit of the mesh, if there is a place. */
  readonly at: Readonly<Vec3> | undefined;

  constructor(code: ResizeRefusalCode, subject: string, given: string, allowed: string, at?: Readonly<Vec3>) {
    super(`${subject}: ${given}; allowed: ${allowed}`);
    this.name = 'ResizeRefusal';
    this.code = code;
    this.subject = subject;
    this.given = given;
    this.allowed = allowed;
    this.at = at;
  }
}
