/** What happens at the invented workshop, minute by minute. */
import type { Act } from '../../../server/weld/entry.ts';
import { bracket, girder, nozzle } from './joints.ts';
import type { Script } from './run.ts';

const pass = (id: string, passKind: 'root' | 'fill' | 'cap', welder = 'Bo Example'): Act => ({
  kind: 'pass start',
  pass: id,
  passKind,
  welder,
  side: 'A',
});

/** Heats for 40 minutes, waits, ready at about 58, first pass at 62, too hot for the second at 74. */
export const girderScript: Script = {
  joint: girder,
  source: 'simulated',
  heaterCelsius: 225,
  acts: [
    { minute: 2, act: { kind: 'heat', state: 'on' } },
    { minute: 46, act: { kind: 'heat', state: 'off' } },
    { minute: 62, act: pass('1', 'root') },
    { minute: 63.2, act: { kind: 'pass end', pass: '1' } },
    { minute: 66, act: { kind: 'note', text: 'Interpass checked by hand as well, agrees with W1.' } },
    { minute: 70, act: pass('2', 'fill') },
    { minute: 71, act: { kind: 'pass end', pass: '2' } },
    { minute: 80, act: pass('3', 'fill') },
  ],
};

export const nozzleScript: Script = {
  joint: nozzle,
  source: 'not verified',
  heaterCelsius: 180,
  acts: [
    { minute: 1, act: { kind: 'heat', state: 'on' } },
    { minute: 40, act: { kind: 'pass start', pass: '1', passKind: 'root', welder: 'Cy Example', side: 'B' } },
    { minute: 43, act: { kind: 'pass end', pass: '1' } },
  ],
  faults: [{ probe: 'N1', from: 44, to: 1000, quality: 'open' }],
};

export const bracketScript: Script = {
  joint: bracket,
  source: 'simulated',
  heaterCelsius: 100,
  acts: [],
  silent: true,
};
