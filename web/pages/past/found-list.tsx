/** What was found, newest first, with where the words stand; and how many joints were looked through. */
import type { FoundJoint } from '../../../server/past/view.ts';
import { fieldNames, findingName, standText } from '../../../server/past/words.ts';
import { foundText } from '../../../server/wording/counts.ts';
import { awayTag } from '../../../server/wording/removal.ts';
import { sourceMark } from '../../../server/wording/words.ts';
import { dayText } from '../../format/time.ts';
import { Glyph } from '../../parts/glyph.tsx';
import { jointAddress } from '../../state/route.ts';
import { askFound, askMore, found, query } from './question.ts';

export function FoundList() {
  const view = found.value;
  if (view === 'asking') return <p class="notice">Asking the station for its joints.</p>;
  if (view === 'failed')
    return (
      <p class="notice loud" role="alert">
        The station did not answer. A record of many joints is gone through once after a new version of the program: ask
        again in a minute.{' '}
        <button type="button" class="plain" onClick={() => void askFound()}>
          Ask again
        </button>
      </p>
    );
  const rest = view.found - view.joints.length;
  return (
    <section class="stack" aria-label="Joints found">
      <p class="row wrap">
        <span role="status">{foundText(view.found, view.searched)}</span>
        {view.found > 0 && (
          <a class="button" href={`/api/past/found.csv?${query()}`} download>
            All that was found (CSV)
          </a>
        )}
      </p>
      {view.found === 0 && view.searched > 0 && (
        <p class="empty">Leave words out, or write less of one: each of them has to stand somewhere in the joint.</p>
      )}
      <ul class="found plain-list">
        {view.joints.map((joint) => (
          <OneFound key={joint.id} joint={joint} />
        ))}
      </ul>
      {rest > 0 && (
        <button type="button" class="plain" onClick={() => void askMore()}>
          Show more: {rest} are not shown yet
        </button>
      )}
    </section>
  );
}

function OneFound({ joint }: { readonly joint: FoundJoint }) {
  const { id, title, source, procedure, welders, passes, findings, places, repairOf, notRead } = joint;
  const mark = sourceMark({ kind: source });
  const facts = [
    span(joint),
    ...(procedure === undefined ? [] : [`${procedure.id}, revision ${procedure.revision}`]),
    `${passes} ${passes === 1 ? 'pass' : 'passes'}${welders.length === 0 ? '' : `: ${welders.join(', ')}`}`,
    ...(repairOf === undefined ? [] : [`repair of ${repairOf}`]),
  ];
  return (
    <li class="sheet">
      <a class="found-link" href={jointAddress(id)}>
        <Glyph name={joint.verdict === 'complies' ? 'met' : joint.verdict === 'does-not-comply' ? 'alarm' : 'blind'} />
        <strong>{title}</strong>
        <span>{id}</span>
        {mark !== undefined && <span class="tag">{mark}</span>}
        {joint.readingsRemoved === true && <span class="tag">{awayTag}</span>}
      </a>
      <p>
        <b>{standText(joint)}</b> · {facts.join(' · ')}
      </p>
      {findings.length > 0 && <p>{findings.map(findingName).join('; ')}</p>}
      {places.length > 0 && (
        <p class="aside">
          Found in {places.map(({ field, text }) => `${fieldNames[field].toLowerCase()}: ${text}`).join('; ')}
        </p>
      )}
      {notRead !== undefined && <p class="problem">Not read to its end: {notRead}</p>}
    </li>
  );
}

const span = ({ openedAt, lastAt }: FoundJoint): string => {
  const [first, last] = [dayText(openedAt), dayText(lastAt)];
  return first === last ? first : `${first} to ${last}`;
};
