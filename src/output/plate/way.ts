/** In which order parts find their place, and which free place they take. */
export interface Way {
  readonly order: 'tallest first' | 'largest first';
  readonly aim: 'middle of the bed' | 'small box';
  /** Whether parts may be turned from how their job lays them. */
  readonly turning: boolean;
}
