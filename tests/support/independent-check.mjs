/**
 * A check of a package by somebody who has read FORMAT.md and nothing else: it imports nothing of the program. Node's own
 * SHA-256 and Ed25519, and plain JSON. `node independent-check.mjs FOLDER [CA.pem]`, the unpacked package and, for its time
 * stamps, whom to trust, asked of OpenSSL; answers with one line.
 */
import { spawnSync } from 'node:child_process';
import { createHash, createPublicKey, verify } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const [, , folder, authority] = process.argv;
const read = (name) => readFileSync(join(folder, name));
const linesOf = (name) =>
  existsSync(join(folder, name))
    ? read(name)
        .toString('utf8')
        .split('\n')
        .filter((line) => line !== '')
    : [];
const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');
const end = (text) => {
  console.log(text);
  process.exit(text.startsWith('INTACT') ? 0 : 1);
};

// Section 8: each entry of the station's chain stands by its signature; key entries name the keys.
const keys = [];
const signaturesOf = (name) =>
  new Map(
    linesOf(name)
      .map((line) => line.split(' '))
      .map(([seq, key, signature]) => [Number(seq), { key: Number(key), signature }]),
  );
const isSigned = (entry, hash, signatures) => {
  const found = signatures.get(entry.seq);
  const key = keys[found?.key - 1];
  const head = Buffer.from(`${entry.chain}=${entry.seq}:${hash}`);
  return key !== undefined && verify(null, head, key, Buffer.from(found.signature, 'hex'));
};
const stationSignatures = signaturesOf('station-signatures.txt');
for (const line of linesOf('station.jsonl')) {
  const entry = JSON.parse(line);
  if (entry.kind === 'key') {
    const der = Buffer.from(`302a300506032b6570032100${entry.body.key}`, 'hex');
    keys.push(createPublicKey({ key: der, format: 'der', type: 'spki' }));
    const by = stationSignatures.get(entry.seq)?.key;
    if (by !== Math.max(1, keys.length - 1)) end(`ALTERED: key ${keys.length} was not handed over`);
  }
  if (keys.length > 0 && !isSigned(entry, sha256(line), stationSignatures))
    end(`ALTERED: entry ${entry.seq} of station`);
}

// Section 4: the chain. Section 5: what a block seals, when it was measured, and where a minute says nothing.
const signatures = signaturesOf('signatures.txt');
const scans = linesOf('scans.jsonl');
// Section 11: the newest of the two kinds says where the readings are.
const moved = linesOf('entries.jsonl').flatMap((line) => {
  try {
    const { class: kindOf, kind, body } = JSON.parse(line);
    return kindOf === 'block' && kind.startsWith('readings ') ? [{ kind, body }] : [];
  } catch {
    return [];
  }
});
const gone = moved.at(-1)?.kind === 'readings removed' ? moved.at(-1).body : undefined;
if (gone !== undefined && scans.length > 0) end('ALTERED: readings that were removed are here');
let counted = 0;
let [before, place, source, asleep, sealed] = ['0'.repeat(64), 0, 'not stated', 0, 0];
const hashes = [];
const stamps = [];
let last;
for (const line of linesOf('entries.jsonl')) {
  place += 1;
  let entry;
  try {
    entry = JSON.parse(line);
  } catch {
    end(`ALTERED: entry ${place} cannot be read`);
  }
  const hash = sha256(line);
  if (entry.seq !== place || entry.previous !== before) end(`ALTERED: entry ${place} is not in its place`);
  if (keys.length > 0 && !isSigned(entry, hash, signatures)) end(`ALTERED: entry ${place} is not signed as it stands`);
  if (entry.class === 'block' && entry.kind.startsWith('readings ') && entry.body.scans !== counted)
    end(`ALTERED: entry ${place} does not fit the readings before it`);
  if (entry.class === 'block' && entry.body.count > 0) counted += entry.body.count;
  if (entry.class === 'block' && entry.body.count > 0 && gone === undefined) {
    const bytes = scans[sealed];
    sealed += 1;
    if (bytes === undefined || sha256(bytes) !== entry.body.scans) end(`ALTERED: the readings of entry ${place}`);
  }
  if (entry.body?.source) source = entry.body.source.kind;
  if (last !== undefined && entry.at - last > 120_000) asleep += 1;
  last = entry.at;
  hashes.push(hash);
  if (entry.class === 'block' && entry.kind === 'time stamp') stamps.push(entry);
  before = hash;
}
const head = read('head.txt').toString();
if (!head.endsWith(`=${place}:${before}`)) end(`ALTERED: cut off after entry ${place}`);

// Section 10: what was stamped stands in this chain, and OpenSSL says whether it was stamped.
for (const { seq, body } of stamps) {
  const [, stamped, hash] = /=(\d+):([0-9a-f]{64})$/.exec(body.head);
  if (hashes[Number(stamped) - 1] !== hash || Number(stamped) >= seq)
    end(`ALTERED: entry ${stamped} is not the one that was stamped in entry ${seq}`);
  const [tsr, txt] = [join(folder, `stamps/${seq}.tsr`), join(folder, `stamps/${seq}.txt`)];
  if (
    read(`stamps/${seq}.txt`).toString() !== body.head ||
    read(`stamps/${seq}.tsr`).toString('base64') !== body.answer
  )
    end(`ALTERED: stamps/${seq} is not what entry ${seq} holds`);
  if (authority === undefined) continue;
  const asked = spawnSync('openssl', ['ts', '-verify', '-data', txt, '-in', tsr, '-CAfile', authority]);
  if (asked.status !== 0) end(`ALTERED: the time stamp of entry ${stamped} does not hold`);
}

// Section 9: the list of the files, and who signed it.
for (const line of linesOf('SHA256SUMS')) {
  const [hash, name] = [line.slice(0, 64), line.slice(66)];
  if (!existsSync(join(folder, name)) || sha256(read(name)) !== hash) end(`ALTERED: ${name}`);
}
const listed = new Set(linesOf('SHA256SUMS').map((line) => line.slice(66)));
for (const name of readdirSync(folder, { recursive: true, withFileTypes: true })) {
  const path = join(name.parentPath ?? name.path, name.name).slice(folder.length + 1);
  if (name.isFile() && !listed.has(path) && !path.startsWith('SHA256SUMS')) end(`ALTERED: ${path} was added`);
}
if (keys.length > 0 && !verify(null, read('SHA256SUMS'), keys.at(-1), read('SHA256SUMS.sig')))
  end('ALTERED: SHA256SUMS is not signed');
end(
  `INTACT: ${place} entries, ${keys.length === 0 ? 'not signed' : 'signed'}, ${source}, silent ${asleep} times${stamps.length === 0 ? '' : `, stamped ${stamps.length} times`}${gone === undefined ? '' : `, readings removed to ${gone.package}`}`,
);
