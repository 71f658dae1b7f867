import pc from 'picocolors';
import type { Looks } from '../../src/cli/terminal.ts';

/** A terminal without colours or an edge. */
export const plain: Looks = { paint: pc.createColors(false), width: Number.POSITIVE_INFINITY };
