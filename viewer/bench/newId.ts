/** An id that no other tab or visit comes upon: 96 random bits in hex. `randomUUID` is missing on hosts without TLS. */
export const newId = (): string =>
  [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
