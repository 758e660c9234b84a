/** What an answer of a time stamp authority turned out to be, in words. */
import { instant } from '../measure/quantity.ts';
import type { Stamp, StampFault, StampWhy } from '../stamp/check.ts';
import type { Trust } from '../stamp/trust.ts';
import { instantText } from './time.ts';

const reasons: Readonly<Record<StampWhy, string>> = {
  unreadable: 'it is no answer of a time stamp authority that can be read here',
  refused: 'the authority refused',
  'another head': 'it stamps something else than this head',
  'another nonce': 'it answers another request: its nonce is not the one that was asked with',
  'no certificate': 'the certificate of whoever signed it did not come along; ask again for it (certReq)',
  altered: 'it was altered, or is signed by somebody else',
  'another certificate': 'it names another certificate than the one that came along',
  'not for stamps': 'the certificate that signed it is not one for time stamping',
  rewritten: 'it holds, and what it stamped does not stand in this record any more',
  'certificate not valid then': 'the certificate that signed it was not valid at the time that it states',
};

export const stampFaultText = ({ why, detail }: StampFault): string =>
  detail === undefined ? reasons[why] : `${reasons[why]} (${detail})`;

export const stampText = ({ at, offMilliseconds, authority, policy }: Stamp): string => {
  const off = offMilliseconds === undefined ? '' : `, right within ${offMilliseconds / 1000} s`;
  return `${instantText(instant(at), 'UTC')}${off}, stamped by ${authority} (policy ${policy}); the signature holds`;
};

/** Whom to believe is the reader's own affair, and is said so. */
export const trustText = (trust: Trust | undefined): string => {
  if (trust === undefined)
    return 'whether you trust that authority is for you to say: give the certificates that you trust with --tsa-ca';
  return 'by' in trust
    ? `issued under ${trust.by}, which you trust; whether it was revoked was not asked`
    : `NOT ISSUED under a certificate that you trust: the way ends at ${trust.lacks}`;
};

/** What a reader may take from a stamp on paper, and what not. */
export const stampMeaning =
  'A time stamp that holds shows that the entry named, and with it all before it, was written no later than the time stated, and was not changed since: not even by whoever holds the key of the station. It does not show when it was written before that time, that what was written is true, or anything of the entries after it. Whether the authority is to be trusted, and whether its certificate was revoked, is for the reader to find out; the command verify takes the certificates that you trust after --tsa-ca.';

export const noStamp =
  "No authority outside has stamped this record. That it stood at the times that it names, nobody but the station's own clock says.";
