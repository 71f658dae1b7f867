import { type Signal, signal } from '@preact/signals';
import type { RefitDesk } from './refitDesk.ts';

/** The desk of the sheet about a model while that sheet is unrolled; null while it is not. */
export const deskAtHand: Signal<RefitDesk | null> = signal(null);
