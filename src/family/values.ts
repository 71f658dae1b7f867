import type { Material } from '../standards/materials.ts';

/** Numbers the family's functions see: readings and sizes by name, mm. A reading that is not asked is NaN. */
export type Numbers = Readonly<Record<string, number>>;

/** What every function of a declaration is given. */
export type Values<
  R extends string = string,
  C extends string = string,
  S extends string = string,
> = Readonly<Record<R | S, number>> & {
  readonly choices: Readonly<Record<C, string>>;
  /** Lines of text by name; empty where the job says nothing. */
  readonly texts: Readonly<Record<string, string>>;
  /** What the part is printed in. */
  readonly material: Material;
};

/** Sizes of the interfaces, by id, mm: as drawn so that the print comes out right, or as expected off the printer.
 *  A size not planned yet is undefined. */
export type Drawn = Readonly<Record<string, number>>;
