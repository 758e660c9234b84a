/** The register of instruments of the joint: what needs somebody first, and the forms that change it. */
import { useSignal } from '@preact/signals';
import type { Act } from '../../../server/weld/entry.ts';
import { type Instrument, isHandKind } from '../../../server/weld/instrument.ts';
import { calibrationText, handKindText } from '../../../server/wording/instrument.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { NotLoaded, useLoaded } from '../../parts/lazy.tsx';
import type { InstrumentSheetKind } from './act-draft.ts';
import { registerRows } from './register-rows.ts';

const load = () => import('./instrument-sheets.tsx');

export function Instruments({
  live,
  openedAt,
  done,
}: {
  readonly live: LiveJoint;
  readonly openedAt: number;
  readonly done: (act: Act) => void;
}) {
  const open = useSignal<{ kind: InstrumentSheetKind; instrument?: Instrument } | undefined>(undefined);
  const forms = useLoaded(load);
  const closed = live.assessment.phase === 'closed';
  const rows = registerRows(live.assessment);
  if (open.value !== undefined) {
    if (forms === 'loading' || forms === 'failed') return <NotLoaded state={forms} />;
    const close = (): void => {
      open.value = undefined;
    };
    return (
      <forms.InstrumentSheet
        key={`${open.value.kind} ${open.value.instrument?.id ?? ''}`}
        live={live}
        openedAt={openedAt}
        kind={open.value.kind}
        instrument={open.value.instrument}
        back={close}
        done={(act) => {
          close();
          done(act);
        }}
      />
    );
  }
  const press = (kind: InstrumentSheetKind, instrument?: Instrument) => (): void => {
    open.value = { kind, ...(instrument === undefined ? {} : { instrument }) };
  };
  return (
    <section class="sheet" aria-labelledby="instruments-heading">
      <div class="sheet-head">
        <h2 id="instruments-heading">Instruments</h2>
      </div>
      {rows.length === 0 && (
        <p class="empty">
          None is entered. With boards, wires and hand instruments here, readings carry their uncertainty and
          corrections, and an overdue calibration is told.
        </p>
      )}
      <ul class="instruments">
        {rows.map(({ instrument, calibration, due, needs }) => (
          <li key={instrument.id} class={needs ? 'needs' : ''}>
            <p>
              <strong>{instrument.id}</strong>{' '}
              <span class="place">{isHandKind(instrument.kind) ? handKindText(instrument.kind) : instrument.kind}</span>
              <span class="place">
                Calibration {needs ? <strong>{calibrationText[calibration]}</strong> : calibrationText[calibration]}
                {instrument.certificate === undefined ? '' : `, certificate ${instrument.certificate}`}
                {due}
              </span>
            </p>
            {!closed && (
              <div class="row wrap">
                {(['calibration', 'verification', 'adjustment'] as const).map((kind) => (
                  <button
                    type="button"
                    key={kind}
                    aria-label={`${words[kind]} of ${instrument.id}`}
                    onClick={press(kind, instrument)}
                  >
                    {words[kind]}
                  </button>
                ))}
                <button type="button" aria-label={`Change ${instrument.id}`} onClick={press('instrument', instrument)}>
                  Change
                </button>
              </div>
            )}
          </li>
        ))}
      </ul>
      {!closed && (
        <button type="button" onClick={press('instrument')}>
          Enter an instrument
        </button>
      )}
    </section>
  );
}

const words = { calibration: 'Calibration', verification: 'Verification', adjustment: 'Adjustment' } as const;
