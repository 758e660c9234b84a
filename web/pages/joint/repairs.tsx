/** That this joint is a repair, what repairs it has, and that an open one keeps it from being settled. */
import { repairLines, repairText, unsettledText } from '../../../server/wording/repair.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { jointAddress, repairAddress } from '../../state/route.ts';

export function Repairs({ live }: { readonly live: LiveJoint }) {
  const { joint, repairs = [], assessment } = live;
  const unsettled = unsettledText(repairs);
  const background = joint.repairOf;
  return (
    <section class="sheet" aria-labelledby="repairs-heading">
      <div class="sheet-head">
        <h2 id="repairs-heading">Repair</h2>
        <a class="button" href={repairAddress(joint.id)}>
          Enter a repair of this joint
        </a>
      </div>
      {unsettled !== undefined && (
        <p class="notice loud" role="status">
          {unsettled}.
        </p>
      )}
      {background !== undefined && (
        <dl class="facts">
          {repairLines(background, assessment.requirement.units).map(({ name, text }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{name === 'Repair of' ? <a href={jointAddress(text)}>{text}</a> : text}</dd>
            </div>
          ))}
        </dl>
      )}
      {repairs.length === 0 ? (
        <p class="empty">No repair of this joint is entered.</p>
      ) : (
        <ul class="plain-list">
          {repairs.map((each) => (
            <li key={each.id}>
              <a href={jointAddress(each.id)}>{repairText(each)}</a>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
