export type TableRefusalCode =
  | 'size_outside_table'
  | 'grade_unknown'
  | 'deviation_unknown'
  | 'fit_code_unclear'
  | 'screw_size_unknown';

/** Something a table has no row for, as data; `message` is the same in one sentence. */
export class TableRefusal extends RangeError {
  readonly code: TableRefusalCode;
  /** What was asked for, as text. */
  readonly given: string;
  /** What the table has, as the end of the sentence "allowed: ...". */
  readonly allowed: string;

  constructor(code: TableRefusalCode, subject: string, given: string, allowed: string) {
    super(`${subject} requires ${allowed} (given ${given})`);
    this.name = 'TableRefusal';
    this.code = code;
    this.given = given;
    this.allowed = allowed;
  }
}
