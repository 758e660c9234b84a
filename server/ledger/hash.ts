/** SHA-256 as small hexadecimal text, by a library that is plain code and asks nothing of the machine. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/** SHA-256 as small hexadecimal digits; where there is a faster one than that of this room it is handed in. */
export type HashOf = (bytes: Uint8Array) => string;

export const sha256Hex: HashOf = (bytes) => bytesToHex(sha256(bytes));

/** What the first entry of a chain names as the one before it. */
export const noHash = '0'.repeat(64);
