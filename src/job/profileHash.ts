import type { PrinterProfile } from '../printer/types.ts';
import { canonical, sha256Hex } from './hash.ts';

/** Fingerprint of a profile's content. */
export const profileHash = (profile: PrinterProfile): string => sha256Hex(canonical(profile));
