import type fc from 'fast-check';

/** What came of one input that nothing was wrong with: a result that was looked over, or the codes of a refusal. */
export type Outcome = { readonly made: string } | { readonly refused: readonly string[] };

/** One kind of thing to be handed over, and what is done with it. */
export interface Kind<T = unknown> {
  /** For counts and for `--only`. */
  readonly name: string;
  /** Inputs tried in the short part of `npm test`. */
  readonly few: number;
  readonly inputs: fc.Arbitrary<T>;
  /** Does with an input what a person would. Throws where what comes out is neither sound nor refused by name. */
  readonly attempt: (input: T) => Promise<Outcome>;
  /** The input as files, to look at when it failed. */
  readonly files: (input: T) => Readonly<Record<string, string | Uint8Array>>;
}

/** A list holds kinds of many inputs; each is used with its own alone. */
export const kind = <T>(of: Kind<T>): Kind => of as unknown as Kind;
