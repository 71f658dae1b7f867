export type ArchiveRefusalCode = 'archive_damaged' | 'archive_unsafe' | 'archive_too_large';

/** An archive that is not read, as data; `message` is the same in one sentence. */
export class ArchiveRefusal extends RangeError {
  readonly code: ArchiveRefusalCode;
  /** What was found, as text. */
  readonly given: string;
  /** What is allowed, as the end of the sentence "allowed: ...". */
  readonly allowed: string;

  constructor(code: ArchiveRefusalCode, given: string, allowed: string) {
    super(`${given}; allowed: ${allowed}`);
    this.name = 'ArchiveRefusal';
    this.code = code;
    this.given = given;
    this.allowed = allowed;
  }
}
