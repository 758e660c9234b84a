/**
 * Signs of faulty probes become findings. A suspect stays in the judgement: it leaves it by a named person or by the
 * procedure's rule only (distrust.ts), as an entry.
 */
import type { Sign } from '../suspicion/sign.ts';
import { type Surroundings, watchScan } from '../suspicion/suspicion.ts';
import type { About } from '../suspicion/view.ts';
import type { Scan } from '../weld/scan.ts';
import { close, type FindingDetail, findingKey, open } from './findings.ts';
import { rules } from './rules.ts';
import { hasBegunWelding, isPassRunning, isTrusted, type ProbeState, type State } from './state.ts';

/** Takes the scan into the histories of its probes; signs that appear or end become findings that open or close. */
export function watchProbes(state: State, scan: Scan): void {
  for (const { change, sign, to } of watchScan(state.suspicion, scan, surroundingsOf(state, scan))) {
    const detail = detailOf(sign);
    if (change === 'opened') open(state, 'probe suspect', sign.since, detail);
    else close(state, findingKey('probe suspect', sign.since, detail), to);
  }
}

const detailOf = ({ kind, sure, probe, board, against, seen }: Sign): FindingDetail => ({
  sign: kind,
  sure,
  seen,
  ...(probe === undefined ? {} : { probe }),
  ...(board === undefined ? {} : { board }),
  ...(against === undefined ? {} : { against }),
});

const surroundingsOf = (state: State, { board }: Scan): Surroundings => ({
  period: state.boardPeriods[board] ?? state.period,
  arc: isPassRunning(state),
  about: () => state.probes.map((each) => aboutOf(state, each)),
  circumstances: () => ({
    heat: state.heat,
    welding: hasBegunWelding(state),
    ...(state.heatSince === undefined ? {} : { heatSince: state.heatSince }),
  }),
});

/** What the joint says of a probe, and whether others may be compared with it. */
export function aboutOf(state: State, each: ProbeState): About {
  const { probe } = each;
  const { heating, parts } = state.joint;
  const { place } = probe;
  const onPart = place !== undefined && probe.use !== 'heater control' && probe.use !== 'ambient';
  const heated = onPart && (heating.face === 'both' || heating.face === place.face);
  const thickness = parts.find(({ id }) => id === place?.part)?.thicknessMillimetres;
  return {
    probe: probe.id,
    board: probe.board,
    channel: probe.channel,
    use: probe.use,
    thermocouple: probe.thermocouple,
    onPart,
    heated,
    flame: heated && heating.means === 'gas torch',
    lag: rules.feltUnderHeaterAfter + (heated && isUnderHeater(state, each) ? 0 : throughTime(thickness ?? 0)),
    trusted: isTrusted(state, each),
    ...(place === undefined ? {} : { place }),
  };
}

const isUnderHeater = ({ joint }: State, { probe }: ProbeState): boolean =>
  joint.heating.halfWidthMillimetres === undefined ||
  (probe.place?.distanceMillimetres ?? 0) <= joint.heating.halfWidthMillimetres;

/** L2 / (2 alpha): how long the far face lags behind a steady rise (Carslaw and Jaeger), milliseconds. */
const throughTime = (millimetres: number): number =>
  ((millimetres * millimetres) / 1e6 / (2 * rules.slowestDiffusivity)) * 1000;
