/** Where the temperatures come from, on every page of a joint, unless they are plainly measured. */
import { useSignal } from '@preact/signals';
import type { Act } from '../../../server/weld/entry.ts';
import { sourceMark } from '../../../server/wording/words.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { NotLoaded, useLoaded } from '../../parts/lazy.tsx';

interface Props {
  readonly live: LiveJoint;
  readonly words: string;
  readonly done: (act: Act) => void;
}

export function SourceBanner({ live, words, done }: Props) {
  const open = useSignal(false);
  const { source, phase } = live.assessment;
  const mark = sourceMark(source);
  if (mark === undefined) return null;
  return (
    <>
      <div class={`banner mark source ${source.kind === 'not verified' ? 'warn' : ''}`}>
        <span>
          <strong>{mark}</strong>
          {words.startsWith(mark) ? words.slice(mark.length) : `. ${words}`}
        </span>
        {source.kind === 'not verified' && phase !== 'closed' && !open.value && (
          <button
            type="button"
            class="plain"
            onClick={() => {
              open.value = true;
            }}
          >
            Put your name to it
          </button>
        )}
      </div>
      {open.value && (
        <Declare
          live={live}
          back={() => {
            open.value = false;
          }}
          done={(act) => {
            open.value = false;
            done(act);
          }}
        />
      )}
    </>
  );
}

function Declare(props: { readonly live: LiveJoint; readonly done: (act: Act) => void; readonly back: () => void }) {
  const sheets = useLoaded(() => import('./sheets.tsx'));
  if (sheets === 'loading' || sheets === 'failed') return <NotLoaded state={sheets} />;
  return <sheets.DeclareSheet {...props} />;
}
