import type { Family } from '../../family/family.ts';
import type { Values } from '../../family/values.ts';
import type { Mesh } from '../../solid/mesh.ts';

/** What a measuring sheet is made from. */
export interface SheetInput {
  readonly family: Family;
  /** Readings, sizes and choices: typical ones before anything is measured. mm. */
  readonly values: Values;
  readonly meshes: {
    readonly part: Mesh;
    readonly hosts: readonly { readonly id: string; readonly name: string; readonly mesh: Mesh }[];
  };
  /** Raw texts already read, by reading; they stand in the boxes. */
  readonly readings?: Readonly<Record<string, readonly string[]>>;
}
