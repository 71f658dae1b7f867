/** A finding a family computes by itself, located in the frame of the part. */
export interface FamilyFinding {
  readonly id: string;
  readonly title: string;
  readonly value: number;
  readonly limit: number;
  /** Whether value must stay at or below the limit, or at or above it. */
  readonly side: 'below' | 'above';
  /** What missing the limit means; absent: `fails`. */
  readonly missed?: 'caution' | 'fails';
  readonly unit: string;
  readonly because: string;
  readonly source: string;
  readonly remedy: string;
  readonly at: readonly [number, number, number];
  /** Further numbers worth showing, by name with unit in the name's words. */
  readonly details?: Readonly<Record<string, number | string>>;
}
