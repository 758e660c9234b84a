/** A photo or a certificate: the document is kept by its hash first, then an entry names it. */
import { useSignal } from '@preact/signals';
import { limits } from '../../../server/measure/limits.ts';
import { TextField } from '../../parts/field.tsx';
import { keepDocument } from '../../state/acts.ts';
import { SheetFrame } from './sheet-frame.tsx';
import type { SheetProps } from './sheets.tsx';
import { useSheet } from './use-sheet.ts';

export function DocumentSheet({ live, done, back }: SheetProps) {
  const sheet = useSheet('attach', live, done);
  const file = useSignal<File | undefined>(undefined);
  const busy = useSignal(false);
  const title = sheet.draft.title ?? '';

  const submit = async (): Promise<void> => {
    const chosen = file.peek();
    if (chosen === undefined) return sheet.fail('Choose a photo or a document first.');
    if (chosen.size === 0) return sheet.fail('This file is empty.');
    if (chosen.size > limits.documentMaximum) {
      return sheet.fail(
        `This file has ${megabytes(chosen.size)}; at most ${megabytes(limits.documentMaximum)} can be kept. Take it at a lower resolution.`,
      );
    }
    busy.value = true;
    const kept = await keepDocument(live.joint.id, chosen);
    busy.value = false;
    if ('why' in kept) return sheet.fail(kept.why);
    await sheet.send({
      kind: 'attach',
      title: title.trim() === '' ? chosen.name.slice(0, limits.nameMaximum) : title.trim(),
      mediaType: chosen.type || 'application/octet-stream',
      bytes: chosen.size,
      sha256: kept.sha256,
    });
  };

  return (
    <SheetFrame
      title="Photo or document"
      sheet={busy.value ? { ...sheet, sending: true } : sheet}
      back={back}
      action="Keep it in the record"
      submit={() => void submit()}
    >
      <div class="field wide">
        <label for="document-file">Photo or document</label>
        <input
          id="document-file"
          type="file"
          accept="image/*,application/pdf"
          onChange={(event) => {
            file.value = event.currentTarget.files?.[0];
          }}
        />
        <p class="hint">At most {megabytes(limits.documentMaximum)}.</p>
      </div>
      <TextField label="What it shows" value={title} onValue={(value) => sheet.set('title', value)} wide />
    </SheetFrame>
  );
}

const megabytes = (bytes: number): string => `${(bytes / 1_000_000).toFixed(1)} MB`;
