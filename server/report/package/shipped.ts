/** What every package carries as it is shipped with this program. */
import { existsSync, readFileSync } from 'node:fs';
import { proofFile } from '../../program.ts';

export const shippedParts = (): { readonly format: Uint8Array; readonly page: Uint8Array } => {
  const page = proofFile('VERIFY.html');
  if (!existsSync(page)) throw new Error('the page that verifies is not built; run npm run build');
  return { format: readFileSync(new URL('../../record/FORMAT.md', import.meta.url)), page: readFileSync(page) };
};
