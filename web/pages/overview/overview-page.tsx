/** The wall: every joint in one line, worst first, readable at five metres. */
import { useEffect } from 'preact/hooks';
import type { JointSummary } from '../../../server/screen/contract.ts';
import { bound } from '../../format/bound.ts';
import { priorityGlyph } from '../../parts/alarm/line.tsx';
import { AlarmList } from '../../parts/alarm/list.tsx';
import { alarmEntries } from '../../parts/alarm/model.ts';
import { Glyph, type GlyphName } from '../../parts/glyph.tsx';
import { Keeping } from '../../parts/keeping.tsx';
import { Signals } from '../../parts/signals.tsx';
import { useTitle } from '../../parts/title.ts';
import { isListCurrent, joints, watchJoints } from '../../state/joints.ts';
import {
  handOverAddress,
  instrumentsAddress,
  jointAddress,
  judgeAddress,
  linksAddress,
  newJointAddress,
  pastAddress,
} from '../../state/route.ts';
import { closedRow, type Need, type OverviewRow, overviewRows } from './overview-model.ts';

const glyphs: Readonly<Record<Need, GlyphName>> = {
  alarm: 'alarm',
  outside: 'alarm',
  silent: 'blind',
  answer: 'person',
  waiting: 'wait',
  ready: 'met',
  running: 'arc',
  planned: 'note',
  closed: 'closed',
};

/** Up to this many the rows are as large as can be; more stand closer together. */
const fewRows = 9;

export function OverviewPage() {
  useTitle('Joints');
  useEffect(() => watchJoints(), []);
  const state = joints.value;
  const blind = !isListCurrent.value;
  if (state.kind === 'loading') return <p class="notice">Asking the station for its joints.</p>;
  if (state.kind === 'failed')
    return (
      <p class="notice loud">
        The station does not answer. Check that it runs and that this device has its network; this page asks again every
        second.
      </p>
    );
  const { open, closed } = state.value;
  const rows = [...overviewRows(open), ...(closed ?? []).map(closedRow)];
  return (
    <section aria-labelledby="joints-heading">
      <div class="joint-head">
        <h1 id="joints-heading">Joints</h1>
        {rows.length > 0 && <p class="aside">Who needs someone stands first.</p>}
        {open.length > 0 && (
          <a class="button" href={handOverAddress}>
            Hand over the shift
          </a>
        )}
      </div>
      {rows.length === 0 && closed !== undefined ? (
        <div class="sheet empty-page">
          <h2>No joint yet</h2>
          <p>Each joint that is entered stands here in one line, with what it needs.</p>
          <a class="button act" href={newJointAddress}>
            Enter the first joint
          </a>
        </div>
      ) : (
        <ul class={`wall${blind ? ' was' : ''}${rows.length > fewRows ? ' many' : ''}`}>
          {rows.map((row) => (
            <WallRow key={row.id} row={row} blind={blind} />
          ))}
        </ul>
      )}
      {closed === undefined && <p class="aside">Closed joints are being looked up.</p>}
      <StationAlarms of={open} blind={blind} />
      <Signals />
      <Keeping />
      <p class="below-wall row wrap">
        <a href={pastAddress}>Find past joints, and counts over them</a>
        <a href={judgeAddress}>Judge logs of another instrument</a>
        <a href={instrumentsAddress}>Connect instruments</a>
        <a href={linksAddress}>Links to boards, and what is wrong with them</a>
      </p>
    </section>
  );
}

/** Of all joints, each where it can be acknowledged without leaving this page. */
function StationAlarms({ of, blind }: { readonly of: readonly JointSummary[]; readonly blind: boolean }) {
  return alarmEntries(of).length === 0 ? null : (
    <section class={`alarms${blind ? ' was' : ''}`} aria-labelledby="alarms-heading">
      <h2 id="alarms-heading">{blind ? 'Alarms, as they were' : 'Alarms of all joints'}</h2>
      <AlarmList joints={of} named changed={() => {}} />
    </section>
  );
}

function WallRow({ row, blind }: { readonly row: OverviewRow; readonly blind: boolean }) {
  const need = blind && row.need !== 'closed' ? 'silent' : row.need;
  return (
    <li class={`wall-row need-${need} ${need === 'alarm' ? (row.priority ?? '') : ''}`}>
      <a href={jointAddress(row.id)}>
        <Glyph
          name={need === 'alarm' && row.priority !== undefined ? priorityGlyph[row.priority] : glyphs[need]}
          size={44}
        />
        <span class="wall-word">{blind && row.need !== 'closed' ? `Was: ${row.word}` : row.word}</span>
        <span class="wall-title">
          {row.title}
          {row.mark !== undefined && <span class="tag">{row.mark}</span>}
          {row.away !== undefined && <span class="tag">{row.away}</span>}
        </span>
        <span class="wall-sentence">{bound(row.sentence)}</span>
        {row.coldest !== undefined && (
          <span class="wall-coldest">
            <span class="wall-small">coldest</span> {bound(row.coldest)}
          </span>
        )}
      </a>
    </li>
  );
}
