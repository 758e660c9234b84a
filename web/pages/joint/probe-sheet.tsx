/** What a person does about one probe: take it out of the judgement, trust it again, let a spare take over. By name and with the reason. */
import type { Act } from '../../../server/weld/entry.ts';
import { useText } from '../../../server/wording/words.ts';
import { placeMark } from '../../format/place.ts';
import { ChoiceField, TextArea } from '../../parts/field.tsx';
import { deedsFor, meansFor, type ProbeDeed, sparesOf } from './probe-words.ts';
import { SheetFrame } from './sheet-frame.tsx';
import type { SheetProps } from './sheets.tsx';
import { useSheet } from './use-sheet.ts';

export function ProbeSheet({ live, done, back, probe }: SheetProps & { readonly probe: string }) {
  const sheet = useSheet('probe', live, done);
  const { assessment } = live;
  const status = assessment.probes.find((each) => each.probe === probe);
  if (status === undefined) {
    return (
      <section class="sheet act-sheet">
        <h2>Probe {probe}</h2>
        <p>This joint has no such probe any more.</p>
        <button type="button" class="plain" onClick={back}>
          Back
        </button>
      </section>
    );
  }
  const { units } = assessment.requirement;
  const deeds = deedsFor(status, assessment);
  const deed = deeds.find((each) => each === sheet.draft.deed) ?? deeds[0]!;
  const spares = sparesOf(assessment);
  const spare = spares.find((each) => each.probe === sheet.draft.spare) ?? spares[0];
  const sitsElsewhere =
    deed === 'spare takes over' &&
    spare?.place !== undefined &&
    status.place !== undefined &&
    JSON.stringify(spare.place) !== JSON.stringify(status.place);
  const own = sitsElsewhere && sheet.draft.place !== 'of the probe';
  const reason = (sheet.draft.reason ?? '').trim();
  return (
    <SheetFrame
      title={`Probe ${probe}`}
      sheet={sheet}
      back={back}
      action={actions[deed](probe, spare?.probe)}
      submit={() => {
        if (reason === '') return sheet.fail('Give the reason: it stands in the record beside your name.');
        void sheet.send(actOf());
      }}
    >
      <p class="aside">
        {useText(status.use)}
        {status.place === undefined ? '' : `, ${placeMark(status.place, units)}`}
      </p>
      {deeds.length > 1 && (
        <ChoiceField
          label="What is to be done"
          value={deed}
          choices={deeds.map((each) => ({ value: each, text: names[each] }))}
          onValue={(value) => sheet.set('deed', value)}
        />
      )}
      {deed === 'spare takes over' && spares.length > 1 && (
        <ChoiceField
          label="Which spare"
          value={spare!.probe}
          choices={spares.map((each) => ({ value: each.probe, text: each.probe }))}
          onValue={(value) => sheet.set('spare', value)}
        />
      )}
      {sitsElsewhere && (
        <ChoiceField
          label={`Where ${spare!.probe} measures`}
          value={own ? 'its own' : 'of the probe'}
          choices={[
            { value: 'its own', text: `Where it sits: ${placeMark(spare!.place!, units)}` },
            { value: 'of the probe', text: `Moved to ${probe}: ${placeMark(status.place!, units)}` },
          ]}
          onValue={(value) => sheet.set('place', value)}
        />
      )}
      <ul class="plain-list" aria-label="What this means">
        {meansFor(deed, status, assessment, spare?.probe).map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      <TextArea label="Reason" {...sheet.entry('reason')} />
    </SheetFrame>
  );

  function actOf(): Act {
    if (deed !== 'spare takes over') return { kind: deed, probe, reason };
    const place = own ? { place: spare!.place! } : {};
    return { kind: deed, spare: spare!.probe, probe, ...place, reason };
  }
}

const names: Readonly<Record<ProbeDeed, string>> = {
  'distrust probe': 'Take it out of the judgement',
  'trust probe again': 'Trust it again',
  'spare takes over': 'Let a spare take over',
};

const actions: Readonly<Record<ProbeDeed, (probe: string, spare: string | undefined) => string>> = {
  'distrust probe': (probe) => `Take ${probe} out of the judgement`,
  'trust probe again': (probe) => `Trust ${probe} again`,
  'spare takes over': (probe, spare) => `Let ${spare ?? 'the spare'} take over from ${probe}`,
};
