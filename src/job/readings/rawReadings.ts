/** Readings as they stand in a file, before anybody has looked up what they are readings of. */
export interface RawReading {
  /** Id or number of a feature of a coupon, or id of an interface of a part, as given. */
  readonly feature: string;
  /** As typed; blank ones are left out. */
  readonly texts: readonly (string | number)[];
  /** Where it stands: `line 3`, `readings[2]`. */
  readonly where: string;
}

/** What a file may hold readings of, for its messages. */
export interface ReadThings {
  /** One of them: "feature". */
  readonly what: string;
  /** Id of one: "bore.3". */
  readonly example: string;
}

/** What a file of readings holds. */
export interface RawReadings {
  readonly readings: readonly RawReading[];
  /** Callipers as told in the file, not looked at yet. */
  readonly callipers?: unknown;
  /** Unit of numbers without one; absent: mm. */
  readonly unit?: unknown;
  /** One entry a feature: two of them are a mistake and no second row of readings. */
  readonly once: boolean;
}
