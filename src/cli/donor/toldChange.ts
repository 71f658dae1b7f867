/** A change as the options give it, one after the other: the axis first, then what to do along it. */
export interface ToldChange {
  readonly axis: string;
  by?: string;
  to?: string;
  take?: string;
}
