/** Under whose name an entry stands, and how that name was established, in words. */
import type { Proof } from '../weld/person.ts';
import type { Signed } from '../weld/signed.ts';

/** "Odd Varen, welder". */
export const nameText = ({ who, role }: Signed): string => (role === undefined ? who : `${who}, ${role}`);

/** "signed on with a PIN"; nothing where the entry does not say. */
export const proofText = (proof: Proof | undefined): string | undefined => {
  switch (proof) {
    case undefined:
      return undefined;
    case 'typed name':
      return 'name as typed';
    case 'PIN':
    case 'badge':
    case 'password':
      return `signed on with a ${proof}`;
  }
};

/** On paper, in one line. */
export const signedText = (signed: Signed): string => {
  const proof = proofText(signed.proof);
  return proof === undefined ? nameText(signed) : `${nameText(signed)} (${proof})`;
};
