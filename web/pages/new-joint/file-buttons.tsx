/** A joint from a file, and to a file: the same JSON that the command line reads. */
import type { Joint } from '../../../server/weld/joint.ts';
import { OpenFile } from './open-file.tsx';

interface Props {
  /** Undefined while it is not whole. */
  readonly joint: Joint | undefined;
  readonly open: (text: string) => void;
  readonly refused: () => void;
  readonly startOver: () => void;
}

export function FileButtons({ joint, open, refused, startOver }: Props) {
  const save = (): void => {
    if (joint === undefined) {
      refused();
      return;
    }
    const address = URL.createObjectURL(
      new Blob([`${JSON.stringify(joint, null, 2)}\n`], { type: 'application/json' }),
    );
    const link = document.createElement('a');
    link.href = address;
    link.download = `${joint.id}.json`;
    link.click();
    URL.revokeObjectURL(address);
  };
  return (
    <div class="row wrap">
      <OpenFile what="a joint file" open={open} />
      <button type="button" class="plain" onClick={save}>
        Save as file
      </button>
      <button type="button" class="plain" onClick={startOver}>
        Start over
      </button>
    </div>
  );
}
