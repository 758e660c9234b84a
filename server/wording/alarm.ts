/** An alarm in words: what is wrong and where, and the first thing to check. */
import type { Alarm } from '../judgement/assessment.ts';
import type { UnitSystem } from '../measure/units.ts';
import { atMostText, ofLimitText } from './temperature.ts';

export interface AlarmWords {
  readonly what: string;
  readonly firstCheck: string;
}

export const alarmText = (alarm: Alarm, units: UnitSystem): AlarmWords => {
  const { kind, value, limit } = alarm;
  const at = alarm.probe === undefined ? '' : ` at ${alarm.probe}`;
  switch (kind) {
    case 'below minimum':
      return {
        what: `Below the minimum preheat${at}${value === undefined ? '' : `: ${ofLimitText(value, limit, units)}`}`,
        firstCheck:
          'Stop the arc when you can, see that the heat is on there and the insulation in place, and heat again.',
      };
    case 'above highest temperature':
      return {
        what: `Hotter than allowed${at}${value === undefined ? '' : `: ${atMostText(value, limit, units)}`}`,
        firstCheck:
          'Turn the heat down there and see whether the probe sits beside a flame or a heater. Then ask the coordinator.',
      };
    case 'probe fault':
      return {
        what: `Probe fault${at}: its place is not judged`,
        firstCheck: 'With heating and welding current off, look at the wire, the plug and the weld of the tip.',
      };
    case 'probe silent':
      return {
        what: `No reading${at}: its place is not judged`,
        firstCheck: 'See whether the board is powered and its cable plugged in; then look at the plug of this probe.',
      };
    case 'maintenance temperature lost':
      return {
        what: `Below the temperature to be kept during the break${at}${value === undefined ? '' : `: ${ofLimitText(value, limit, units)}`}`,
        firstCheck: 'Turn the heat on. Before going on, see what the procedure asks after such a fall.',
      };
    case 'not recording':
      return {
        what: 'Not recording: what happens now is not kept',
        firstCheck:
          'Look at the disk of the station: is it full or unplugged? Write down readings and passes by hand until it records again.',
      };
  }
};

/** An alarm by the key that an acknowledgement names: what it was about, without its numbers. */
export const alarmKeyText = (key: string): string => (key.startsWith('probe/') ? `probe ${key.slice(6)}` : key);
