/** The forms of a pass: begin it, end it with the numbers of its arc, add what came later, and put a slip right. */
import { unitsOf } from '../../../server/measure/units.ts';
import { passKinds } from '../../../server/weld/pass-acts.ts';
import { begun } from '../../../server/wording/list.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { ChoiceField, TextArea, TextField } from '../../parts/field.tsx';
import { correctionOf, freshCorrection } from './correct-draft.ts';
import { passDetailsOf, type Readers } from './pass-draft.ts';
import { ArcFields, MoreRunFields, PlaceFields, SetUpFields } from './pass-fields.tsx';
import { Ago, SheetFrame } from './sheet-frame.tsx';
import type { SheetProps } from './sheets.tsx';
import { type Sheet, useSheet } from './use-sheet.ts';
import { welderNames } from './welder-names.ts';

export function PassStartSheet({ live, done, back, outside }: SheetProps & { readonly outside: string | undefined }) {
  const sheet = useSheet('pass start', live, done);
  const { draft } = sheet;
  const name = `Start pass ${draft.pass ?? ''}`;
  return (
    <SheetFrame
      title="Start a pass"
      sheet={sheet}
      back={back}
      action={outside === undefined ? name : `${name} outside the conditions`}
      loud={outside !== undefined}
      later={{
        title: 'Layer, consumable, side, place, or started earlier',
        content: (
          <>
            <SetUpFields sheet={sheet} live={live} pass={undefined} />
            <PlaceFields sheet={sheet} />
            <Ago sheet={sheet} what="It started" />
          </>
        ),
      }}
    >
      {outside !== undefined && (
        <p class="notice loud">
          <strong>This pass will be recorded as begun outside the conditions:</strong> {outside}. Nothing is blocked;
          the record says so.
        </p>
      )}
      <div class="fields">
        <TextField label="Pass" {...sheet.entry('pass')} />
        <TextField label="Welder" suggestions={welderNames(live.assessment)} {...sheet.entry('welder')} />
      </div>
      <KindField sheet={sheet} />
    </SheetFrame>
  );
}

export function PassEndSheet({ live, done, back }: SheetProps) {
  const running = live.assessment.passes.filter((pass) => pass.endedAt === undefined);
  // Numbers that were typed for one pass never stand in the form of the next.
  const sheet = useSheet('pass end', live, done, { of: running.map(({ pass }) => pass).join('/'), draft: {} });
  const { pass } = sheet.draft;
  return (
    <SheetFrame
      title="End a pass"
      sheet={sheet}
      back={back}
      action={`End pass ${pass ?? ''}`}
      later={{
        title: 'Stops, energy shown, or ended earlier',
        content: (
          <>
            <MoreRunFields sheet={sheet} />
            <Ago sheet={sheet} what="It ended" />
          </>
        ),
      }}
    >
      {(running.length > 1 || sheet.problems.pass !== undefined) && (
        <ChoiceField
          label="Pass that ended"
          value={pass ?? ''}
          problem={sheet.problems.pass}
          choices={running.map((each) => ({
            value: each.pass,
            text: `${each.pass}, ${each.passKind}, ${each.welder}`,
          }))}
          onValue={(value) => sheet.set('pass', value)}
        />
      )}
      <ArcFields sheet={sheet} live={live} pass={pass} />
    </SheetFrame>
  );
}

export function PassDetailsSheet({ live, done, back, pass }: SheetProps & { readonly pass: string }) {
  const sheet = useSheet('pass details', live, done, { of: pass, draft: { pass } });
  const submit = (): void => {
    const { problems, read } = reader(sheet);
    const act = passDetailsOf(sheet.draft, unitsOf(live.joint), read);
    if (Object.keys(problems).length > 0) sheet.tell(problems);
    else void sheet.send(act);
  };
  return (
    <SheetFrame title={`Details of pass ${pass}`} sheet={sheet} back={back} action="Record the details" submit={submit}>
      <p>What was entered already stays; leave it empty here. To change it, correct the pass.</p>
      <ArcFields sheet={sheet} live={live} pass={pass} />
      <MoreRunFields sheet={sheet} />
      <SetUpFields sheet={sheet} live={live} pass={pass} />
      <PlaceFields sheet={sheet} />
    </SheetFrame>
  );
}

export function CorrectPassSheet({ live, done, back, pass }: SheetProps & { readonly pass: string }) {
  const stands = live.assessment.passes.find((each) => each.pass === pass);
  if (stands === undefined) return <p class="notice">There is no pass {pass} any more.</p>;
  return <Correction live={live} done={done} back={back} stands={stands} />;
}

function Correction({
  live,
  done,
  back,
  stands,
}: SheetProps & { readonly stands: LiveJoint['assessment']['passes'][number] }) {
  const units = unitsOf(live.joint);
  const of = `${stands.pass}.${stands.enteredAt}.${stands.corrections?.length ?? 0}`;
  const sheet = useSheet('correct pass', live, done, { of, draft: freshCorrection(stands, units) });
  const { draft } = sheet;
  const isStruck = draft.what === 'struck';
  const submit = (): void => {
    const { problems: found, read } = reader(sheet);
    const act = correctionOf(stands, draft, units, read);
    if (Object.keys(found).length > 0) sheet.tell(found);
    else void sheet.send(act);
  };
  return (
    <SheetFrame
      title={`Correct pass ${stands.pass}`}
      sheet={sheet}
      back={back}
      action={isStruck ? `Strike pass ${stands.pass}` : 'Record the correction'}
      loud={isStruck}
      submit={submit}
    >
      <p>The entry that was wrong stays in the record. The joint is judged anew as it is right.</p>
      <ChoiceField
        label="What is wrong"
        choices={[
          { value: '', text: 'Something in it' },
          { value: 'struck', text: 'There was no such pass' },
        ]}
        {...sheet.entry('what')}
      />
      {!isStruck && (
        <>
          <div class="fields">
            <TextField label="Started at" {...sheet.entry('started')} />
            {stands.endedAt !== undefined && <TextField label="Ended at" {...sheet.entry('ended')} />}
            <TextField label="Pass" {...sheet.entry('name')} />
            <TextField label="Welder" suggestions={welderNames(live.assessment)} {...sheet.entry('welder')} />
          </div>
          <KindField sheet={sheet} />
          <details>
            <summary>Layer, consumable, side, numbers of the arc</summary>
            <div class="later">
              <ArcFields sheet={sheet} live={live} pass={stands.pass} />
              <MoreRunFields sheet={sheet} />
              <SetUpFields sheet={sheet} live={live} pass={stands.pass} />
              <PlaceFields sheet={sheet} />
            </div>
          </details>
        </>
      )}
      <TextArea label="Why" {...sheet.entry('text')} />
    </SheetFrame>
  );
}

const KindField = ({ sheet }: { readonly sheet: Sheet }) => (
  <ChoiceField
    label="Kind"
    choices={passKinds.map((kind) => ({ value: kind as string, text: begun(kind) }))}
    {...sheet.entry('passKind', 'fill')}
  />
);

function reader({ draft }: Sheet): { readonly problems: Record<string, string>; readonly read: Readers } {
  const problems: Record<string, string> = {};
  const problem = (field: string, ask: string): void => {
    problems[field] = ask;
  };
  const text = (field: string, ask: string): string => {
    const value = (draft[field] ?? '').trim();
    if (value === '') problem(field, ask);
    return value;
  };
  return { problems, read: { text, problem } };
}
