/** Ways to hash and to sign that stamps and certificates name, and how whoever has the mathematics is asked. */
import { sha1 } from '@noble/hashes/legacy.js';
import { sha256, sha384, sha512 } from '@noble/hashes/sha2.js';
import { Fields, type Node, nameOf, numberOf, tags, Unreadable } from './asn1.ts';

export type Hash = 'SHA-256' | 'SHA-384' | 'SHA-512';
export type Scheme =
  | { readonly kind: 'RSA'; readonly hash: Hash }
  | { readonly kind: 'RSA-PSS'; readonly hash: Hash; readonly salt: number }
  | { readonly kind: 'ECDSA'; readonly hash: Hash }
  | { readonly kind: 'Ed25519' };

/** Whether the key (DER of a SubjectPublicKeyInfo) signed the bytes. Never throws: what is no signature is none. */
export type VerifyByCertificate = (
  publicKey: Uint8Array,
  scheme: Scheme,
  bytes: Uint8Array,
  signature: Uint8Array,
) => boolean;

const hashNames: Readonly<Record<string, Hash>> = {
  '2.16.840.1.101.3.4.2.1': 'SHA-256',
  '2.16.840.1.101.3.4.2.2': 'SHA-384',
  '2.16.840.1.101.3.4.2.3': 'SHA-512',
};
const functions = { 'SHA-256': sha256, 'SHA-384': sha384, 'SHA-512': sha512 } as const;
export const hashed = (hash: Hash, bytes: Uint8Array): Uint8Array => functions[hash](bytes);
/** Only to tell one certificate from another, where an older way of naming it is used. */
export const sha1Of = (bytes: Uint8Array): Uint8Array => sha1(bytes);

/** Of an AlgorithmIdentifier. */
export const hashOf = (node: Node): Hash => {
  const name = nameOf(new Fields(node).next('a hash'));
  const hash = hashNames[name];
  if (hash === undefined)
    throw new Unreadable(`the hash ${name} is not taken; SHA-256, SHA-384 and SHA-512 are (SHA-1 is broken)`);
  return hash;
};

const rsa: Readonly<Record<string, Hash>> = {
  '1.2.840.113549.1.1.11': 'SHA-256',
  '1.2.840.113549.1.1.12': 'SHA-384',
  '1.2.840.113549.1.1.13': 'SHA-512',
};
const ecdsa: Readonly<Record<string, Hash>> = {
  '1.2.840.10045.4.3.2': 'SHA-256',
  '1.2.840.10045.4.3.3': 'SHA-384',
  '1.2.840.10045.4.3.4': 'SHA-512',
};

/** Of an AlgorithmIdentifier of a signature; `digest` where it may name the kind of key only, as in CMS. */
export const schemeOf = (node: Node, digest?: Hash): Scheme => {
  const fields = new Fields(node);
  const name = nameOf(fields.next('a way to sign'));
  if (rsa[name] !== undefined) return { kind: 'RSA', hash: rsa[name] };
  if (ecdsa[name] !== undefined) return { kind: 'ECDSA', hash: ecdsa[name] };
  if (name === '1.2.840.113549.1.1.1' && digest !== undefined) return { kind: 'RSA', hash: digest };
  if (name === '1.2.840.113549.1.1.10') return pss(fields.next('the values of RSA-PSS', tags.sequence));
  if (name === '1.3.101.112') return { kind: 'Ed25519' };
  throw new Unreadable(`the way to sign ${name} is not taken; RSA, RSA-PSS, ECDSA and Ed25519 with SHA-2 are`);
};

const pss = (values: Node): Scheme => {
  const fields = new Fields(values);
  const hash = fields.option(0xa0)?.children[0];
  fields.option(0xa1);
  const salt = fields.option(0xa2)?.children[0];
  if (hash === undefined) throw new Unreadable('RSA-PSS with SHA-1 is not taken');
  return { kind: 'RSA-PSS', hash: hashOf(hash), salt: salt === undefined ? 20 : numberOf(salt) };
};
