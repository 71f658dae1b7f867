/** What the process that tries inputs says to the one that watches it. */
export type Message =
  | { readonly what: 'begins'; readonly kind: string; readonly seed: number }
  | {
      readonly what: 'ended';
      readonly kind: string;
      readonly seed: number;
      readonly ms: number;
      readonly outcome: string;
      readonly codes: readonly string[];
      readonly failed?: string;
    };

/** What it is told to do: cases of some kinds until the time is up, or the same cases once more. */
export type Order =
  | {
      readonly what: 'try';
      readonly kinds: readonly string[];
      readonly seed: number;
      readonly from: Readonly<Record<string, number>>;
      readonly until: number;
    }
  | { readonly what: 'again'; readonly cases: readonly { readonly kind: string; readonly seed: number }[] };
