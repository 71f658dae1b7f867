/** Letters of the lengths, by the reading that asks for them. */
export const lengthReadings = { lengthX: 0, lengthY: 1, lengthZ: 2 } as const;
export type LengthReading = keyof typeof lengthReadings;
