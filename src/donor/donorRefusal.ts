import type { Vec3 } from '../solid/vector.ts';

export type DonorRefusalCode =
  | 'donor_empty'
  | 'donor_format_unknown'
  | 'donor_text_unclear'
  | 'donor_cut_short'
  | 'donor_too_large'
  | 'donor_too_far'
  | 'donor_archive_damaged'
  | 'donor_archive_unsafe'
  | 'donor_model_unclear'
  | 'donor_extension_unknown'
  | 'donor_flat'
  | 'donor_surface_open'
  | 'donor_edges_crowded'
  | 'donor_one_sided';

/** A model that cannot be used as a donor, as data; `message` is the same in one sentence. */
export class DonorRefusal extends RangeError {
  readonly code: DonorRefusalCode;
  /** What was found, as text. */
  readonly given: string;
  /** What is allowed, as the end of the sentence "allowed: ...". */
  readonly allowed: string;
  /** Where, in the unit of the file, if there is a place. */
  readonly at: Readonly<Vec3> | undefined;

  constructor(code: DonorRefusalCode, given: string, allowed: string, at?: Readonly<Vec3>) {
    super(`${given}; allowed: ${allowed}`);
    this.name = 'DonorRefusal';
    this.code = code;
    this.given = given;
    this.allowed = allowed;
    this.at = at;
  }
}

/** What rounding leaves of a coordinate of 0, in any unit a model may have. */
const NOTHING = 1e-9;

/** A place in the unit of the file, five significant digits.
 *  @example placeText([1.5, 0, -2.25]) // => 'x 1.5, y 0, z -2.25' */
export const placeText = (at: Readonly<Vec3>): string =>
  at
    .map((value, k) => `${'xyz'[k]} ${Math.abs(value) < NOTHING ? 0 : Number(value.toPrecision(5))}`)
    .join(', ');
