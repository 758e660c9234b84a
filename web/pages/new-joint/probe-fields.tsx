/** The thermocouples: wire, use and place, with the cross-section drawn as one types. */
import { limits } from '../../../server/measure/limits.ts';
import { thermocoupleTypes } from '../../../server/measure/thermocouple.ts';
import { faces, probeAttachments, probeUses, sides } from '../../../server/weld/probe.ts';
import { useText as wordOfUse } from '../../../server/wording/words.ts';
import { SelectField, TextField } from '../../parts/field.tsx';
import { station } from '../../state/station.ts';
import type { JointDraft, ProbeDraft } from './draft.ts';
import { type Entry, replaced, without } from './entry.tsx';
import { NumberField, orNone } from './number-field.tsx';
import { ArcSignalFields } from './pass-fields.tsx';
import { nextProbe } from './suggest.ts';

export function ProbeFields({ entry }: { readonly entry: Entry }) {
  const { draft } = entry;
  const boards = (station.value?.links ?? []).flatMap((link) => (link.board === undefined ? [] : [link.board]));
  const set = (index: number, part: Partial<ProbeDraft>): void =>
    entry.change({ probes: replaced(draft.probes, index, part) });
  return (
    <fieldset class="group">
      <legend>Probes</legend>
      {draft.probes.length === 0 && (
        <p class="empty">
          No probe yet. For each thermocouple: the board and channel it is wired to, what it answers for, and where it
          sits. Zone probes answer for the minimum; an interpass probe sits beside the weld.
        </p>
      )}
      {draft.probes.map((probe, index) => (
        // The place is the key: a probe has no identity but its place in the list
        <OneProbe
          key={index}
          entry={entry}
          probe={probe}
          index={index}
          boards={boards}
          set={(part) => set(index, part)}
          remove={() => entry.change({ probes: without(draft.probes, index) })}
        />
      ))}
      {draft.probes.length < limits.probesMaximum && (
        <button
          type="button"
          class="plain"
          onClick={() => entry.change({ probes: [...draft.probes, nextProbe(draft, boards)] })}
        >
          Add a probe
        </button>
      )}
      <ArcSignalFields entry={entry} />
    </fieldset>
  );
}

interface OneProps {
  readonly entry: Entry;
  readonly probe: ProbeDraft;
  readonly index: number;
  readonly boards: readonly string[];
  readonly set: (part: Partial<ProbeDraft>) => void;
  readonly remove: () => void;
}

function OneProbe({ entry, probe, index, boards, set, remove }: OneProps) {
  const path = `probes.${index}`;
  const put = (field: string, part: Partial<ProbeDraft>): void => {
    entry.touch(`${path}.${field}`);
    set(part);
  };
  const problem = (field: string): string | undefined => entry.problem(`${path}.${field}`);
  return (
    <section class="member probe" aria-label={`Probe ${probe.id}`}>
      <TextField
        label="Probe"
        field={`${path}.id`}
        value={probe.id}
        problem={problem('id')}
        onValue={(id) => put('id', { id })}
      />
      <TextField
        label="Board"
        field={`${path}.board`}
        value={probe.board}
        problem={problem('board')}
        suggestions={boards}
        onValue={(board) => put('board', { board })}
      />
      <TextField
        label="Channel"
        kind="number"
        field={`${path}.channel`}
        value={probe.channel}
        problem={problem('channel')}
        onValue={(channel) => put('channel', { channel })}
      />
      <SelectField
        label="Type"
        value={probe.thermocouple}
        choices={thermocoupleTypes.map((type) => ({ value: type as string, text: type }))}
        onValue={(thermocouple) => set({ thermocouple })}
      />
      <SelectField
        label="Answers for"
        value={probe.use}
        problem={problem('place')}
        choices={probeUses.map((use) => ({ value: use as string, text: wordOfUse(use) }))}
        onValue={(use) => set({ use, placed: use !== 'heater control' && use !== 'ambient' && use !== 'spare' })}
      />
      {probe.placed ? (
        <>
          <SelectField
            label="Part"
            value={probe.part}
            problem={problem('place.part')}
            choices={entry.draft.parts.map((part) => ({ value: part.id, text: part.id }))}
            onValue={(part) => set({ part })}
          />
          <SelectField
            label="Side"
            value={probe.side}
            choices={sides.map((side) => ({ value: side as string, text: side }))}
            onValue={(side) => set({ side })}
          />
          <SelectField
            label="Face"
            value={probe.face}
            choices={faces.map((face) => ({ value: face as string, text: face }))}
            onValue={(face) => set({ face })}
          />
          <NumberField
            entry={entry}
            label="Distance"
            kind="length"
            field={`${path}.place.distanceMillimetres`}
            value={probe.distance}
            onValue={(distance) => set({ distance })}
          />
          <TextField
            label="Clock"
            kind="number"
            field={`${path}.place.clock`}
            value={probe.clock}
            problem={problem('place.clock')}
            onValue={(clock) => put('place.clock', { clock })}
          />
        </>
      ) : (
        <p class="hint">Not on the part, so no place is asked.</p>
      )}
      {entry.draft.afterWelding.spots !== '' && (
        <SelectField
          label="Held by"
          field={`${path}.attachedBy`}
          value={probe.attachedBy}
          choices={orNone(probeAttachments)}
          onValue={(attachedBy) => put('attachedBy', { attachedBy })}
        />
      )}
      {instrumentIds(entry.draft).length > 0 && (
        <>
          <TextField
            label="Wire lot"
            field={`${path}.wire`}
            optional="if known"
            value={probe.wire}
            problem={problem('wire')}
            suggestions={instrumentIds(entry.draft)}
            onValue={(wire) => put('wire', { wire })}
          />
          <TextField
            label="Extension cable"
            field={`${path}.extension`}
            optional="if known"
            value={probe.extension}
            problem={problem('extension')}
            suggestions={['none', ...instrumentIds(entry.draft)]}
            onValue={(extension) => put('extension', { extension })}
          />
          <NumberField
            entry={entry}
            label="Fixing, plus or minus"
            kind="difference"
            field={`${path}.attachmentErrorKelvin`}
            optional="if known"
            value={probe.attachment}
            onValue={(attachment) => set({ attachment })}
          />
        </>
      )}
      <button type="button" class="plain" aria-label={`Remove probe ${probe.id}`} onClick={remove}>
        Remove
      </button>
    </section>
  );
}

/** The register comes with the joint file and goes through the form as it is; probes name what stands in it. */
const instrumentIds = ({ carried }: JointDraft): string[] =>
  Array.isArray(carried.instruments)
    ? carried.instruments.flatMap((each: { id?: unknown }) => (typeof each?.id === 'string' ? [each.id] : []))
    : [];
