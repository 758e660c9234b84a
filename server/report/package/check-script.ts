/**
 * check.sh as HOW-TO-VERIFY.txt prints it (check.sh.txt): POSIX sh, awk, sha256sum, and OpenSSL where the record is signed. The
 * files are read as bytes. Keys stand in order, so that what lies outside of an entry's body comes after its last `},"chain":`.
 */
import { readFileSync } from 'node:fs';

export const checkScript = (isSigned: boolean): readonly string[] => {
  const lines = readFileSync(new URL('./check.sh.txt', import.meta.url), 'utf8')
    .trimEnd()
    .split('\n');
  let within = false;
  return lines.filter((line) => {
    if (line === '# signed' || line === '# end') {
      within = line === '# signed';
      return false;
    }
    return isSigned || !within;
  });
};
