#!/bin/sh
# Makes the answers of a time stamp authority that tests read without OpenSSL, with OpenSSL: sh make.sh > answers.json
# All stamp the head of server/record/FORMAT.md, section 8. Only "plain" and "rsa" are as they should be.
set -eu
here=$(mktemp -d)
cd "$here"
trap 'rm -rf "$here"' EXIT
printf 'beam-7=3:d4a1a9ba705b3cf056dd9c3993071d83c59778bc5760c452428a1c3bbbc7c2d5' >head.txt
cat >a.cnf <<'C'
[req]
distinguished_name = name
[name]
[root]
basicConstraints = critical,CA:TRUE
keyUsage = critical,keyCertSign
[stamps]
keyUsage = critical,digitalSignature
extendedKeyUsage = critical,timeStamping
[mail]
extendedKeyUsage = emailProtection
[ca]
default_ca = run
[run]
database = index.txt
serial = serial
new_certs_dir = .
default_md = sha256
policy = any
unique_subject = no
[any]
commonName = supplied
[tsa]
default_tsa = short
[short]
serial = number
signer_digest = sha256
default_policy = 1.2.3.4.1
digests = sha256
accuracy = secs:1
ess_cert_id_alg = sha256
[older]
serial = number
signer_digest = sha512
default_policy = 1.2.3.4.1
digests = sha256
ess_cert_id_alg = sha1
C
: >index.txt
echo 01 >serial
echo 01 >number
key() { if [ "$1" = rsa ]; then openssl genrsa -out "$1.key" 2048; else openssl ecparam -name prime256v1 -genkey -noout -out "$1.key"; fi 2>/dev/null; }
root() {
  key "$1"
  openssl req -new -key "$1.key" -subj "/CN=$2" -config a.cnf -out "$1.csr" 2>/dev/null
  openssl ca -batch -notext -selfsign -config a.cnf -extfile a.cnf -extensions root -keyfile "$1.key" -startdate 20200101000000Z -enddate 20460101000000Z -in "$1.csr" -out "$1.pem" 2>/dev/null
}
# name, common name, extensions, from, to
issued() {
  key "$1"
  openssl req -new -key "$1.key" -subj "/CN=$2" -config a.cnf -out "$1.csr" 2>/dev/null
  openssl ca -batch -notext -config a.cnf -extfile a.cnf -extensions "$3" -cert root.pem -keyfile root.key -startdate "$4" -enddate "$5" -in "$1.csr" -out "$1.pem" 2>/dev/null
}
# name, section
answer() { openssl ts -reply -config a.cnf -section "$2" -queryfile head.tsq -signer "$1.pem" -inkey "$1.key" -out "$1.tsr" 2>/dev/null; }
# name of a certificate that is not for this: what OpenSSL would not stamp with it is signed with it all the same.
signed() {
  openssl ts -reply -in plain.tsr -token_out -out t.der 2>/dev/null
  openssl cms -verify -noverify -inform DER -in t.der -out info.der 2>/dev/null
  openssl cms -sign -binary -nodetach -cades -econtent_type 1.2.840.113549.1.9.16.1.4 -signer "$1.pem" -inkey "$1.key" -in info.der -outform DER -out "$1.der" 2>/dev/null
  { printf '\060\202'; n=$(($(wc -c <"$1.der") + 5)); printf "\\$(printf '%03o' $((n / 256)))\\$(printf '%03o' $((n % 256)))"; printf '\060\003\002\001\000'; cat "$1.der"; } >"$1.tsr"
}
root root 'Root of Stamps (test)'
root stranger 'Another Root (test)'
issued plain 'Stamps of a Test' stamps 20260101000000Z 20460101000000Z
issued rsa 'Stamps with RSA (test)' stamps 20260101000000Z 20460101000000Z
issued late 'Stamps that ran out (test)' stamps 20200101000000Z 20210101000000Z
issued mail 'Mail of a Test' mail 20260101000000Z 20460101000000Z
openssl ts -query -data head.txt -sha256 -cert -out head.tsq 2>/dev/null
answer plain short
answer rsa older
signed late
signed mail
# Of the same head, asked a second time: another nonce.
cp head.tsq first.tsq
openssl ts -query -data head.txt -sha256 -cert -out head.tsq 2>/dev/null
cp plain.tsr kept.tsr
answer plain short
cp plain.tsr again.tsr
cp kept.tsr plain.tsr
b() { printf '  "%s": "%s"' "$1" "$(base64 -w0 "$2")"; }
echo '{'
b request first.tsq; echo ','
for name in plain rsa late mail again; do b "$name" "$name.tsr"; echo ','; done
b root root.pem; echo ','
b certificate plain.pem; echo ','
b key plain.key; echo ','
b stranger stranger.pem; echo
echo '}'
