/** Checks before welding and points of inspection: a row each, answered with one hand; what is done stays in sight. */
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import type { CheckStatus, PointStatus } from '../../../server/judgement/checks/check-status.ts';
import { limits } from '../../../server/measure/limits.ts';
import type { Instant } from '../../../server/measure/quantity.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { answerLine, pointText, releaseLine } from '../../../server/wording/checks.ts';
import { begun } from '../../../server/wording/list.ts';
import { actKey } from '../../feed/http.ts';
import { dayClockText } from '../../format/time.ts';
import { ChoiceField, TextField } from '../../parts/field.tsx';
import { Glyph, type GlyphName } from '../../parts/glyph.tsx';
import { HeadCode } from '../../parts/head-code.tsx';
import { keepDocument, sendAct } from '../../state/acts.ts';
import { person } from '../../state/person.ts';
import { SheetFrame } from './sheet-frame.tsx';
import type { SheetProps } from './sheets.tsx';
import { useSheet } from './use-sheet.ts';

/** `stay`: something was recorded, and the list stays open. */
export function ChecksSheet({ live, stay, back }: SheetProps & { readonly stay: (act: Act) => void }) {
  const chosen = useSignal<string | undefined>(undefined);
  const { checks = [], points = [] } = live.assessment;
  const when = (at: Instant): string => dayClockText(at);
  /** Another row may have been opened while the answer was on its way: that one stays. */
  const doneWith =
    (key: string) =>
    (act: Act): void => {
      if (chosen.peek() === key) chosen.value = undefined;
      stay(act);
    };
  const leave = (): void => {
    chosen.value = undefined;
  };
  const row = (key: string, text: string, line: string, glyph: GlyphName, form: () => ComponentChildren) =>
    chosen.value === key ? (
      <li key={key}>{form()}</li>
    ) : (
      <li key={key}>
        <button
          type="button"
          class="check-row"
          onClick={() => {
            chosen.value = key;
          }}
        >
          <Glyph name={glyph} size={28} />
          <span>
            <strong>{text}</strong>
            <span class="under">{begun(line)}</span>
          </span>
        </button>
      </li>
    );
  const given = points.filter((point) => point.given !== undefined).length;
  return (
    <section class="sheet act-sheet" aria-label="Checks before welding">
      <h2>Checks before welding</h2>
      <ul class="check-list">
        {checks.map((check) =>
          row(`check ${check.id}`, check.text, answerLine(check, when), glyphOf(check), () => (
            <AnswerForm live={live} done={doneWith(`check ${check.id}`)} back={leave} check={check} />
          )),
        )}
        {points.map((point) =>
          row(
            `point ${point.id}`,
            point.text ?? begun(pointText(point)),
            releaseLine(point, when),
            pointGlyph(point),
            () => <ReleaseForm live={live} done={doneWith(`point ${point.id}`)} back={leave} point={point} />,
          ),
        )}
      </ul>
      {points.length > 0 && <HeadCode key={given} joint={live.joint.id} atOnce={given > 0} />}
      <div class="row end">
        <button type="button" class="plain" onClick={back}>
          Back
        </button>
      </div>
    </section>
  );
}

const glyphOf = ({ answered }: CheckStatus): GlyphName => {
  if (answered === undefined) return 'unjudged';
  return answered.answer === 'not in order' ? 'unmet' : 'met';
};

const pointGlyph = ({ given, refused }: PointStatus): GlyphName => {
  if (refused !== undefined) return 'unmet';
  return given === undefined ? 'unjudged' : 'met';
};

function AnswerForm({ live, done, back, check }: SheetProps & { readonly check: CheckStatus }) {
  const draft = { answer: '', note: '' };
  const sheet = useSheet('checks', live, done, { of: check.id, draft });
  const photo = useSignal<File | undefined>(undefined);
  const busy = useSignal(false);
  const { answer } = sheet.draft;
  const submit = async (): Promise<void> => {
    const note = (sheet.draft.note ?? '').trim();
    if (answer !== 'in order' && answer !== 'not in order' && answer !== 'not applicable')
      return sheet.tell({ answer: 'Choose an answer.' });
    if (answer !== 'in order' && note === '')
      return sheet.tell({ note: 'Say what is not in order, or why it does not apply.' });
    busy.value = true;
    const kept = photo.value === undefined ? undefined : await keepPhoto(live.joint.id, photo.value, check.text);
    busy.value = false;
    if (kept !== undefined && 'why' in kept) return sheet.fail(kept.why);
    await sheet.send({
      kind: 'check answered',
      check: check.id,
      answer,
      ...(note === '' ? {} : { note }),
      ...(kept === undefined ? {} : { document: kept.sha256 }),
    });
  };
  return (
    <SheetFrame
      title={check.text}
      sheet={busy.value ? { ...sheet, sending: true } : sheet}
      back={back}
      action="Record the answer"
      submit={() => void submit()}
    >
      {check.role !== undefined && <p class="hint">The answer of the {check.role} counts.</p>}
      <ChoiceField
        label="It is"
        value={answer ?? ''}
        problem={sheet.problems.answer}
        choices={[
          { value: 'in order', text: 'In order' },
          { value: 'not in order', text: 'Not in order' },
          { value: 'not applicable', text: 'Does not apply' },
        ]}
        onValue={(value) => sheet.set('answer', value)}
      />
      <TextField label="Note" optional={answer === 'in order'} {...sheet.entry('note')} wide />
      <div class="field wide">
        <label for="check-photo">Photo, if one helps</label>
        <input
          id="check-photo"
          type="file"
          accept="image/*"
          capture="environment"
          onChange={(event) => {
            photo.value = event.currentTarget.files?.[0];
          }}
        />
      </div>
    </SheetFrame>
  );
}

/** The photo is kept and attached first; the answer then names it. */
async function keepPhoto(
  joint: string,
  file: File,
  title: string,
): Promise<{ readonly sha256: string } | { readonly why: string }> {
  const who = person.peek();
  if (who === undefined) return { why: 'Say who you are first, at the top of the page: every entry needs a name.' };
  if (file.size === 0 || file.size > limits.documentMaximum)
    return { why: 'This photo is empty or too large. Take it at a lower resolution.' };
  const kept = await keepDocument(joint, file);
  if ('why' in kept) return kept;
  const { sha256 } = kept;
  const mediaType = file.type || 'application/octet-stream';
  const sent = await sendAct(joint, who, { kind: 'attach', title, mediaType, bytes: file.size, sha256 }, actKey());
  if (sent.kind === 'recorded') return { sha256 };
  return { why: sent.kind === 'wrong' ? 'The station did not take the photo.' : sent.why };
}

function ReleaseForm({ live, done, back, point }: SheetProps & { readonly point: PointStatus }) {
  const sheet = useSheet('checks', live, done, { of: point.id, draft: { state: 'released', note: '' } });
  const state = sheet.draft.state ?? 'released';
  const submit = async (): Promise<void> => {
    const note = (sheet.draft.note ?? '').trim();
    if (state === 'released')
      return void (await sheet.send({ kind: 'point released', point: point.id, ...(note === '' ? {} : { note }) }));
    if (note === '')
      return sheet.tell({ note: state === 'waived' ? 'Why is it done without?' : 'What has to be done first?' });
    await sheet.send({ kind: state === 'waived' ? 'point waived' : 'point refused', point: point.id, reason: note });
  };
  return (
    <SheetFrame
      title={point.text ?? point.id}
      sheet={sheet}
      back={back}
      action={pointActions[state] ?? 'Release'}
      submit={() => void submit()}
    >
      <p class="hint">{begun(pointText(point))}.</p>
      <ChoiceField
        label="The point is"
        value={state}
        choices={[
          { value: 'released', text: 'Released' },
          { value: 'refused', text: 'Not released' },
          { value: 'waived', text: 'Waived' },
        ]}
        onValue={(value) => sheet.set('state', value)}
      />
      <TextField
        label={state === 'released' ? 'Note' : state === 'waived' ? 'Reason' : 'What has to be done first'}
        optional={state === 'released'}
        {...sheet.entry('note')}
        wide
      />
    </SheetFrame>
  );
}

const pointActions: Readonly<Record<string, string>> = {
  released: 'Release',
  refused: 'Record that it is not released',
  waived: 'Record that it is waived',
};
