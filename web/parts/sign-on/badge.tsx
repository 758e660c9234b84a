/**
 * A badge: a scanner types its code like a keyboard and ends with Enter. A browser that reads codes by itself may take
 * a photo of it; where it cannot, that is said.
 */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { Try } from './panel.tsx';

/** Not in every browser, and not yet in TypeScript's own list. */
interface CodeReader {
  detect(image: ImageBitmap): Promise<readonly { readonly rawValue: string }[]>;
}
const Reader = (globalThis as { BarcodeDetector?: new (options: { formats: string[] }) => CodeReader }).BarcodeDetector;

export function Badge({ attempt }: { readonly attempt: Try }) {
  const code = useSignal('');
  const problem = useSignal<string | undefined>(undefined);
  const field = useRef<HTMLInputElement>(null);
  // A scanner types wherever the keyboard is: it must be here.
  useEffect(() => field.current?.focus(), []);
  const tryCode = async (badge: string): Promise<void> => {
    code.value = '';
    problem.value = undefined;
    if (badge.trim() !== '') await attempt({ badge: badge.trim().slice(0, 100) });
  };
  const readPhoto = async (file: File | undefined): Promise<void> => {
    if (file === undefined || Reader === undefined) return;
    try {
      const [found] = await new Reader({ formats: ['qr_code'] }).detect(await createImageBitmap(file));
      if (found !== undefined) return await tryCode(found.rawValue);
    } catch {
      // Told below, with what to do.
    }
    problem.value = 'No code was found in the photo. Hold the badge flat and fill the picture with it.';
  };
  return (
    <form
      class="badge"
      onSubmit={(event) => {
        event.preventDefault();
        void tryCode(code.value);
      }}
    >
      <label>
        Or scan your badge
        <input
          ref={field}
          type="password"
          inputMode="none"
          autoComplete="off"
          value={code.value}
          onInput={(event) => {
            code.value = event.currentTarget.value;
          }}
        />
      </label>
      {Reader === undefined ? (
        <p class="hint">A scanner types the code here. This browser reads no code from a photo.</p>
      ) : (
        <label class="button photo">
          Photo of the badge
          <input
            type="file"
            accept="image/*"
            capture="environment"
            onChange={(event) => void readPhoto(event.currentTarget.files?.[0])}
          />
        </label>
      )}
      {problem.value !== undefined && (
        <p class="problem" role="alert">
          {problem.value}
        </p>
      )}
    </form>
  );
}
