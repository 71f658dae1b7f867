/** The three corners of a triangle, x, y, z one after the other. */
export type Nine = readonly [number, number, number, number, number, number, number, number, number];

/** The corners of the triangle that begins at a place among coordinates without shared vertices. */
export const nineAt = (corners: Float64Array, place: number): Nine =>
  corners.subarray(place, place + 9) as unknown as Nine;
