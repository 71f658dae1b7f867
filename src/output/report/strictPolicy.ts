import { sha256 } from '@noble/hashes/sha2.js';
import { utf8ToBytes } from '@noble/hashes/utils.js';
import { base64 } from './base64.ts';

/** Content security policy of a page with this one style sheet and pictures of its own, and nothing else: no script, no
 *  address, no form, no style but the sheet itself (Content Security Policy Level 3, 2.3.1, hash sources). */
export const strictPolicy = (style: string): string =>
  [
    "default-src 'none'",
    `style-src 'sha256-${base64(sha256(utf8ToBytes(style)))}'`,
    'img-src data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
