import type { ResultFile } from './resultSchema.ts';

/** A kind of file that a job leaves the bench with. */
export type MadeKind = ResultFile['files'][number]['kind'];

/** One such file, in memory. */
export interface MadeFile {
  /** Without folder. */
  readonly name: string;
  readonly kind: MadeKind;
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Of a model, all its objects together. */
  readonly triangles?: number;
  /** Id of the part, in a set, where the file is about one part alone. */
  readonly part?: string;
}
