/** Instruments that are no board: say how one is read, see live what it gives before anything is recorded, then keep it. */
import { useSignal } from '@preact/signals';
import { useTitle } from '../../parts/title.ts';
import { Connecting, fileText } from './connecting.tsx';
import { Kept } from './kept.tsx';
import { useInstruments } from './use-instruments.ts';
import { Waiting } from './waiting.tsx';

export function InstrumentsPage() {
  useTitle('Instruments');
  const desk = useInstruments();
  /** The file as somebody changed it; absent while it comes of the fields. */
  const own = useSignal<string | undefined>(undefined);
  return (
    <article class="connecting" aria-labelledby="instruments-title">
      <div class="joint-head">
        <h1 id="instruments-title">Instruments</h1>
      </div>
      <p class="banner source">
        On trial nothing is recorded. Once it is kept, probes of a joint name the instrument as their board, and its
        readings count as not verified until somebody says in the record what is connected.
      </p>
      <Cautions />
      <Kept
        desk={desk}
        onTakenAway={(file) => {
          own.value ??= fileText(file);
        }}
      />
      <Waiting
        desk={desk}
        tryOut={(text) => {
          own.value = text;
          void desk.tryOut(text);
        }}
      />
      <Connecting desk={desk} own={own} />
    </article>
  );
}

function Cautions() {
  return (
    <ul class="notice">
      <li>
        Heater and welding current can kill and can come along thermocouple wires: connect with both switched off.
      </li>
      <li>
        Use modules whose inputs are isolated from each other and from the bus. Tips on one part join all channels;
        without isolation the current of the arc flows through them.
      </li>
    </ul>
  );
}
