/** HOW-TO-VERIFY.txt: for somebody who trusts neither us nor the workshop, with tools that every machine has. */

import { checkScript } from './check-script.ts';

export interface HowTo {
  readonly chain: string;
  readonly isSigned: boolean;
  /** Number of the newest key. */
  readonly key: number;
  /** Entries that keep a time stamp. */
  readonly stamps: readonly number[];
  /** SHA-256 of the package that holds the readings, where they were removed from the record before this one was made. */
  readonly away?: string;
}

/** A test runs the script of this text exactly as it stands here. */
export const howToVerify = ({ chain, isSigned, key, stamps, away }: HowTo): string =>
  [
    `HOW TO VERIFY THIS PACKAGE (joint ${chain})`,
    '',
    'What it is: the record of heating and welding one joint, as the station wrote it while it happened, with everything',
    'that is needed to check it. You need neither the program that made it nor the people who made it. For reading open',
    'report.pdf; readings.csv and passes.csv are tables of it. What counts is entries.jsonl and scans.jsonl: the rest follows.',
    '',
    ...(away === undefined ? [] : awayText(away)),
    '1. WITH A BROWSER',
    '   Unpack VERIFY.html, open it in a current browser, and drop the whole .zip file on it. It works without a network and',
    '   sends nothing anywhere. It checks all that stands below, judges the record again by its own rules, and draws it. Whoever',
    '   gave you this package could have changed that page too: if you do not trust them, take VERIFY.html from a package that',
    '   somebody else gave you, or go on with 2.',
    '',
    '2. WITH COMMON TOOLS: sh, awk, sha256sum, and OpenSSL 3 for the signatures; Linux has them, and so have WSL and Git Bash on',
    '   Windows. Unpack the .zip file into an empty folder, open a terminal there, and type what stands indented.',
    '',
    '   Are all files those that were put in? Every line must end with OK:',
    '',
    '      sha256sum -c SHA256SUMS',
    '',
    ...(isSigned ? signedText(key) : unsignedText),
    '   Does every entry follow the one before it? Is it complete in time, and was it measured? Each line of entries.jsonl is one',
    '   entry. Its SHA-256 is its hash, and the next line names that hash as "previous". Each block of readings names the SHA-256 of',
    '   its line in scans.jsonl. The script below goes through them and names the first entry that is not as it was written. It',
    '   prints what the readings are (measured, simulated, imported, not verified), the longest time without any, and how often',
    '   the station gave no sign of being awake, which it does each minute. Copy it out of this text, and run it; it takes some',
    '   seconds for a thousand entries:',
    '',
    "      sed -n '/^ *LC_ALL=C/,/^ *echo .INTACT/s/^      //p' HOW-TO-VERIFY.txt >check.sh",
    '      sh check.sh',
    '',
    ...(isSigned ? eachText : []),
    ...checkScript(isSigned).map((line) => `      ${line}`),
    '',
    '   FORMAT.md says what each field means, so that you can write a better check than this one.',
    '',
    ...(stamps.length === 0 ? [] : stampText(stamps)),
    '3. COMPARE WITH WHAT LEFT THE HOUSE EARLIER',
    isSigned
      ? "   Whoever has the station's private key can rewrite the whole record and sign it again, until a head of it has left the"
      : '   This record is NOT SIGNED. Whoever could write to it can have made the whole record anew, until a head of it has left the',
    '   house. A head is a line CHAIN=ENTRY:HASH, on every report and in the code that the screen shows. If somebody you',
    '   trust has kept one, on paper, in a photo or as a file, then that entry must have that hash here: look for',
    '   its number in what check.sh prints, or give it to VERIFY.html. If nobody has, then this package proves only that whoever',
    '   has the key stands behind it.',
    ...(isSigned
      ? ['   Compare the key likewise: its fingerprint stands on earlier reports, and is what this prints:', '']
      : []),
    ...(isSigned ? [`      openssl pkey -pubin -in keys/${key}.pem -outform DER | sha256sum`] : []),
    '',
    '4. WHAT ALL THIS DOES NOT SAY',
    '   That a probe was where the record says, that a name is that of the person, or that a weld is sound or safe. Look at',
    '   the "source" of the readings in the entry of kind "opened": simulated readings were never measured.',
    '   The script under rules/ judged the record, and what judges it again in VERIFY.html is that same script: it shows that',
    '   the verdict follows from the readings by these rules, not that the rules are right.',
    '',
  ].join('\n');

const awayText = (sha256: string): string[] => [
  'WITHOUT ITS READINGS: they were removed from the record before this package was made, by a person and for the reason that the',
  'entry of kind "readings removed" gives. scans.jsonl is empty, there are no tables, and nothing can be judged again from here. They',
  'are in an earlier package, the file with this SHA-256; whoever gave you this one should be able to give you that one too:',
  '',
  `      ${sha256}`,
  '',
  'Its readings fit the hashes that the entries of this package give.',
  '',
];

const stampText = (stamps: readonly number[]): string[] => [
  '   Was the record there at a time that somebody outside vouches for? Each .tsr file in stamps/ is a time stamp (RFC 3161) of the',
  '   head in the .txt file beside it. Save the certificates of that authority as CA.pem; get them from the authority itself and',
  '   not from whoever gave you this package. The first command says "Verification: OK", the second shows who stamped and when:',
  '',
  ...stamps.flatMap((seq) => [
    `      openssl ts -verify -data stamps/${seq}.txt -in stamps/${seq}.tsr -CAfile CA.pem`,
    `      openssl ts -reply -in stamps/${seq}.tsr -text`,
  ]),
  '',
  '   Number and hash in the .txt file must be those that check.sh, below, prints for that entry.',
  '',
];

const signedText = (key: number): string[] => [
  '   Did the station sign that list, and the newest entry of the record? (Ed25519) Each must say Signature Verified Successfully:',
  '',
  `      openssl pkeyutl -verify -pubin -inkey keys/${key}.pem -rawin -in SHA256SUMS -sigfile SHA256SUMS.sig`,
  `      openssl pkeyutl -verify -pubin -inkey keys/${key}.pem -rawin -in head.txt -sigfile head.sig`,
  '',
];

/** What is signed is the head, and the head stands for all before it. */
const eachText = [
  '   The head that the station signed stands for every entry before it. Where it does not fit, signatures.txt, which holds the',
  '   signature of each single entry, tells from where on somebody else wrote; this takes some minutes:',
  '',
  '      sh check.sh each',
  '',
];

const unsignedText = [
  '   This record has no key: it was begun before records were signed. The list above can have been made by anybody.',
  '',
];
