/** The button that opens a JSON file which the command line reads too. The same file can be chosen twice in a row. */
import { useRef } from 'preact/hooks';

export function OpenFile({ what, open }: { readonly what: string; readonly open: (text: string) => void }) {
  const file = useRef<HTMLInputElement>(null);
  return (
    <>
      <input
        ref={file}
        type="file"
        accept="application/json,.json"
        hidden
        onChange={(event) => {
          const input = event.currentTarget;
          void input.files?.[0]?.text().then((text) => {
            open(text);
            input.value = '';
          });
        }}
      />
      <button type="button" class="plain" onClick={() => file.current?.click()}>
        Open {what}
      </button>
    </>
  );
}
