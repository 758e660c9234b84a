/** What a page and the station say to each other about who is signed on. */
import type { Instant } from '../measure/quantity.ts';
import type { Proof, Role } from './person.ts';
import type { Qualification } from './qualification.ts';

export interface SignedOn {
  readonly id: string;
  readonly name: string;
  readonly roles: readonly Role[];
  readonly proof: Exclude<Proof, 'typed name'>;
  /** Until it ends by itself, if nobody touches the screen. */
  readonly endsInMilliseconds: number;
}

export interface SignOnView {
  /** False where the station knows nobody yet: names are then as typed. */
  readonly needed: boolean;
  /** Name of this screen where a PIN or a badge is enough on it. */
  readonly screen?: string;
  /** Whom a PIN can sign on here; empty on a screen that is not trusted. */
  readonly byPin: readonly { readonly id: string; readonly name: string }[];
  readonly who?: SignedOn;
}

export interface QualificationKept extends Qualification {
  readonly id: string;
}

export interface PersonView {
  readonly id: string;
  readonly name: string;
  readonly roles: readonly Role[];
  readonly active: boolean;
  /** What the person can sign on with; never the secret itself. */
  readonly has: readonly SignedOn['proof'][];
  readonly qualifications: readonly QualificationKept[];
}

/** What the administrator sees. */
export interface PeopleView {
  readonly people: readonly PersonView[];
  readonly screens: readonly {
    readonly id: string;
    readonly name: string;
    readonly trustedAt: Instant;
    readonly trustedBy: string;
  }[];
  /** Name of the screen that asks, where it is trusted. */
  readonly screen?: string;
  /** Newest first. */
  readonly events: readonly { readonly at: Instant; readonly who: string; readonly what: string }[];
}

/** Shown once, when it was made: the station keeps a hash only. */
export interface NewSecret {
  readonly kind: SignedOn['proof'];
  readonly text: string;
  /** Of a badge: the code to print, as SVG. */
  readonly svg?: string;
}
