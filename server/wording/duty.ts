/** Who may make which entry, in words for the desk's refusals and the screen. */
import { type DutyKind, duties } from '../weld/duties.ts';
import { listText } from './list.ts';

/** "inspector and coordinator". */
export const rolesText = (kind: DutyKind): string => listText(duties[kind].roles);

/** The entry as people call it: "starting a pass". */
export const entryText = (kind: DutyKind): string => entries[kind];

const entries: { readonly [kind in DutyKind]: string } = {
  open: 'entering a joint',
  import: 'keeping logs as a record',
  'remove readings': 'removing readings from the record',
  'put readings back': 'putting readings back into the record',
  procedure: 'recording a procedure',
  'withdraw procedure': 'withdrawing a procedure',
  revise: 'correcting a joint',
  heat: 'entering heat on or off',
  'pass start': 'starting a pass',
  'pass end': 'ending a pass',
  'pass details': 'entering details of a pass',
  break: 'entering a break',
  'break inspected': 'entering an inspection after a break',
  'correct pass': 'correcting a pass',
  'welding complete': 'saying that welding is complete',
  'post-heating': 'entering post-heating',
  cover: 'entering a cover on or off',
  'heat treatment begun': 'entering that heat treatment begun',
  'testing begun': 'entering that testing begun',
  'spot examined': 'entering an examined spot',
  'contact reading': 'a contact reading',
  'ambient check': 'checking the probes at ambient',
  'check answered': 'answering a check before welding',
  'point released': 'releasing a point of inspection',
  'point waived': 'doing without a point of inspection',
  'point refused': 'not releasing a point of inspection',
  note: 'a note',
  attach: 'attaching a document',
  'hand-over': 'handing over the shift',
  acknowledge: 'taking note of an alarm',
  shelve: 'putting an alarm aside',
  unshelve: 'taking an alarm up again',
  accept: 'a named answer',
  disposition: 'deciding on a deviation',
  calibration: 'entering a calibration',
  verification: 'entering a verification',
  adjustment: 'entering an adjustment',
  'declare source': 'declaring the source of the readings',
  'distrust probe': 'taking a probe out of the judgement',
  'trust probe again': 'trusting a probe again',
  'spare takes over': 'letting a spare take over',
  close: 'closing a joint',
};
