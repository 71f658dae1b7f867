// The library carries no declarations of its own; these are the pieces of it in use.

declare module '@jscadui/3mf-export' {
  /** Content types of the package: relationships, models, PNG. */
  export const fileForContentTypes: { readonly name: string; readonly content: string };
  /** The relationships of the package. */
  export class FileForRelThumbnail {
    readonly name: string;
    readonly content: string;
    add3dModel(path: string): void;
    addThumbnail(path: string): void;
  }
}

declare module '@jscadui/3mf-export/src/makeItem.js' {
  /** Element of the build; the matrix is 4 x 4, a row after the other, for points that are rows. */
  export function makeItem(id: number, matrix: readonly number[]): string;
}
