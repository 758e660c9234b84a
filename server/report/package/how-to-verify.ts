/** HOW-TO-VERIFY.txt: for somebody who trusts neither us nor the workshop, with tools that every machine has. */

export interface HowTo {
  readonly chain: string;
  readonly isSigned: boolean;
  /** Number of the newest key. */
  readonly key: number;
  /** Entries that keep a time stamp. */
  readonly stamps: readonly number[];
}

/** A test runs the script of this text exactly as it stands here. */
export const howToVerify = ({ chain, isSigned, key, stamps }: HowTo): string =>
  [
    `HOW TO VERIFY THIS PACKAGE (joint ${chain})`,
    '',
    'What it is: the record of heating and welding one joint, as the station wrote it while it happened, with everything',
    'that is needed to check it. You need neither the program that made it nor the people who made it.',
    '',
    '1. WITH A BROWSER',
    '   Unpack VERIFY.html, open it in a current browser, and drop the whole .zip file on it. It works without a network and',
    '   sends nothing anywhere. It checks all that stands below, judges the record again by its own rules, and draws it.',
    '',
    '2. WITH COMMON TOOLS: sha256sum, and OpenSSL 3 for the signatures. Unpack the .zip file, go into the folder, and:',
    '',
    '   Are all files those that were put in?',
    '',
    '      sha256sum -c SHA256SUMS',
    '',
    ...(isSigned ? signedText(key) : unsignedText),
    '   Does every entry follow the one before it? Each line of entries.jsonl is one entry. Its SHA-256 is its hash, and the',
    '   next line names that hash as "previous". Each block of readings names the SHA-256 of its line in scans.jsonl. Save',
    '   this as check.sh, and run: sh check.sh',
    '',
    ...script.map((line) => `      ${line}`),
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
    '   its number in what check.sh prints. If nobody has, then this package proves only that the station stands behind it.',
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
  '   Number and hash in the .txt file must be those that check.sh prints for that entry.',
  '',
];

const signedText = (key: number): string[] => [
  '   Did the station sign that list, and the newest entry of the record? (Ed25519)',
  '',
  `      openssl pkeyutl -verify -pubin -inkey keys/${key}.pem -rawin -in SHA256SUMS -sigfile SHA256SUMS.sig`,
  `      openssl pkeyutl -verify -pubin -inkey keys/${key}.pem -rawin -in head.txt -sigfile head.sig`,
  '',
  '   signatures.txt holds the signature of every single entry, so that the first one that was changed can be named.',
  '',
];

const unsignedText = [
  '   This record has no key: it was begun before records were signed. The list above can have been made by anybody.',
  '',
];

/** POSIX sh, sed, cut and sha256sum; the files are read as bytes. Hashes stand at the end of an entry, at the place of "previous". */
const script = [
  'LC_ALL=C; export LC_ALL',
  'n=0; before=0000000000000000000000000000000000000000000000000000000000000000; bad=',
  'exec 3<scans.jsonl',
  'while IFS= read -r entry; do',
  '  n=$((n + 1))',
  `  previous=$(printf '%s' "$entry" | sed 's/.*"previous":"\\([0-9a-f]*\\)".*/\\1/')`,
  '  if [ "$previous" != "$before" ]; then bad="entry $n does not follow entry $((n - 1))"; break; fi',
  `  sealed=$(printf '%s' "$entry" | sed -n 's/.*"scans":"\\([0-9a-f]*\\)"},"chain":.*"class":"block".*/\\1/p')`,
  '  if [ -n "$sealed" ]; then',
  '    IFS= read -r scans <&3',
  `    if [ "$(printf '%s' "$scans" | sha256sum | cut -c1-64)" != "$sealed" ]; then bad="the readings of entry $n are altered"; break; fi`,
  '  fi',
  `  before=$(printf '%s' "$entry" | sha256sum | cut -c1-64)`,
  '  echo "entry $n $before"',
  'done <entries.jsonl',
  'head=$(cat head.txt)',
  'if [ -n "$bad" ]; then echo "ALTERED: $bad"; exit 1; fi',
  'case "$head" in *"=$n:$before") echo "INTACT: $n entries" ;; *) echo "ALTERED: the head is not that of entry $n"; exit 1 ;; esac',
];
